/* audit with sorrel32.xml */
/* A platform driver that gets its base from elsewhere and has only offsets. */
#include <linux/io.h>
#include <linux/module.h>
#include <linux/platform_device.h>

#define COPY_EVENTS		0x08
#define COPY_LANE(n)		(0x40 + 0x40 * (n))
#define LANE_SETUP		0x10
#define LANE_LEFT		0x14
#define SETUP_RUN		BIT(31)
#define SETUP_SIZE		GENMASK(9, 8)

struct copy_device {
	void __iomem *base;
	spinlock_t lock;
	u32 seen;
};

static irqreturn_t copy_interrupt(int irq, void *data)
{
	struct copy_device *copy = data;
	u32 events = readl(copy->base + COPY_EVENTS);

	writel(events, copy->base + COPY_EVENTS);
	copy->seen |= events;
	return IRQ_HANDLED;
}

static void copy_start(struct copy_device *copy, unsigned int lane, u32 count)
{
	void __iomem *at = copy->base + COPY_LANE(lane);

	writel_relaxed(count, at + LANE_LEFT);
	writel(SETUP_RUN | FIELD_PREP(SETUP_SIZE, 2), at + LANE_SETUP);
}

MODULE_LICENSE("Dual MIT/GPL");
