/* Bring a link up and tell how fast it is, by the names of linux/mii.h. */
#include <linux/mii.h>
#include <linux/phy.h>

int link_reset(struct phy_device *phydev)
{
	int tries = 100;
	int control;

	phy_write(phydev, MII_BMCR, BMCR_RESET);
	do {
		control = phy_read(phydev, MII_BMCR);
		if (control < 0)
			return control;
	} while (control & BMCR_RESET && --tries);
	return tries ? 0 : -1;
}

int link_offer(struct phy_device *phydev, int only_100)
{
	int offer = ADVERTISE_CSMA | ADVERTISE_100FULL | ADVERTISE_100HALF;

	if (!only_100)
		offer |= ADVERTISE_10FULL | ADVERTISE_10HALF | ADVERTISE_PAUSE_CAP;
	phy_write(phydev, MII_ADVERTISE, offer);
	phy_write(phydev, MII_CTRL1000, only_100 ? 0 : ADVERTISE_1000FULL);
	return phy_write(phydev, MII_BMCR, BMCR_ANENABLE | BMCR_ANRESTART);
}

int link_force(struct phy_device *phydev, int fast, int full)
{
	int control = fast ? BMCR_SPEED100 : BMCR_SPEED10;

	if (full)
		control |= BMCR_FULLDPLX;
	return phy_write(phydev, MII_BMCR, control);
}

int link_is_up(struct phy_device *phydev)
{
	int status;

	/* The bit keeps a failure until it is read: the second value is that of now. */
	(void)phy_read(phydev, MII_BMSR);
	status = phy_read(phydev, MII_BMSR);
	return (status & (BMSR_LSTATUS | BMSR_ANEGCOMPLETE)) == (BMSR_LSTATUS | BMSR_ANEGCOMPLETE);
}

int link_megabits(struct phy_device *phydev)
{
	int gigabit = phy_read(phydev, MII_STAT1000);
	int partner = phy_read(phydev, MII_LPA) & phy_read(phydev, MII_ADVERTISE);

	if (gigabit & (LPA_1000FULL | LPA_1000HALF) && !(gigabit & LPA_1000MSFAIL))
		return 1000;
	if (partner & (LPA_100FULL | LPA_100HALF | LPA_100BASE4))
		return 100;
	return partner & (LPA_10FULL | LPA_10HALF) ? 10 : 0;
}

int link_sleep(struct phy_device *phydev, int on)
{
	int control = phy_read(phydev, MII_BMCR);

	if (control < 0)
		return control;
	control = on ? control | BMCR_PDOWN : control & ~BMCR_PDOWN;
	return phy_write(phydev, MII_BMCR, control & ~(BMCR_ISOLATE | BMCR_LOOPBACK | BMCR_CTST));
}
