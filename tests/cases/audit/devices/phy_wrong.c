/* audit with ethernet_phy.json */
#include <linux/phy.h>
#define MII_BMCR 0x01 /* finds name-at-other-address */
#define MII_BMSR 0x01
#define BMCR_ANENABLE 0x0800 /* finds bit-of-another-name */
#define BMSR_LSTATUS (1 << 2)
#define BMCR_SPEED1000 0x0040

void start(struct phy_device *phydev)
{
	phy_write(phydev, MII_BMSR, 0); /* finds read-only-written */
	phy_write(phydev, MII_LPA, 1); /* finds read-only-written */
	phy_write(phydev, MII_CTRL1000, ADVERTISE_1000FULL);
	phy_write(phydev, MII_CTRL1000, BMCR_FULLDPLX); /* finds bit-of-another-register */
}
