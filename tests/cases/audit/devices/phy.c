/* audit with ethernet_phy.json */
/* Bring up a link. */
#include <linux/mii.h>
#include <linux/phy.h>

int link_up(struct phy_device *phydev)
{
	int value = phy_read(phydev, MII_BMSR);

	if (value < 0)
		return value;
	if (!(value & BMSR_ANEGCOMPLETE))
		phy_write(phydev, MII_BMCR, BMCR_ANENABLE | BMCR_ANRESTART);
	phy_write(phydev, MII_ADVERTISE, ADVERTISE_CSMA | ADVERTISE_10FULL | ADVERTISE_100FULL);
	phy_write(phydev, 0x10, 0x1234);
	return !!(value & BMSR_LSTATUS);
}
