/* Registers of clause 45 through two of clause 22, and who is on the other end. */
#include <linux/mii.h>
#include <linux/phy.h>

int paged_read(struct phy_device *phydev, int device, int number)
{
	phy_write(phydev, MII_MMD_CTRL, MII_MMD_CTRL_ADDR | (device & MII_MMD_CTRL_DEVAD_MASK));
	phy_write(phydev, MII_MMD_DATA, number);
	phy_write(phydev, MII_MMD_CTRL, MII_MMD_CTRL_NOINCR | (device & MII_MMD_CTRL_DEVAD_MASK));
	return phy_read(phydev, MII_MMD_DATA);
}

void paged_fill(struct phy_device *phydev, int device, int number, const u16 *from, int count)
{
	phy_write(phydev, MII_MMD_CTRL, MII_MMD_CTRL_ADDR | (device & MII_MMD_CTRL_DEVAD_MASK));
	phy_write(phydev, MII_MMD_DATA, number);
	phy_write(phydev, MII_MMD_CTRL, MII_MMD_CTRL_INCR_ON_WT | (device & MII_MMD_CTRL_DEVAD_MASK));
	while (count--)
		phy_write(phydev, MII_MMD_DATA, *from++);
}

u32 identifier(struct phy_device *phydev)
{
	u32 high = phy_read(phydev, MII_PHYSID1);

	return high << 16 | phy_read(phydev, MII_PHYSID2);
}

int partner_negotiates(struct phy_device *phydev)
{
	int expansion = phy_read(phydev, MII_EXPANSION);

	return expansion & EXPANSION_NWAY && !(expansion & EXPANSION_MFAULTS);
}

int can_gigabit(struct phy_device *phydev)
{
	if (!(phy_read(phydev, MII_BMSR) & BMSR_ESTATEN))
		return 0;
	return !!(phy_read(phydev, MII_ESTATUS) & (ESTATUS_1000_TFULL | ESTATUS_1000_THALF));
}

void be_master(struct phy_device *phydev)
{
	phy_write(phydev, MII_CTRL1000,
		  CTL1000_ENABLE_MASTER | CTL1000_AS_MASTER | ADVERTISE_1000FULL);
}
