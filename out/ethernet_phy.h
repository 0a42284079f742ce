/* ethernet_phy.h: registers of IEEE 802.3 clause 22 PHY registers
 *
 * Made by regwright from ethernet_phy.json; change that file and emit again, not this one.
 * Checked against: IEEE 802.3 clause 22, as named in linux/mii.h, the C library's copy of the kernel's register names, revision as installed with Linux 6.1.
 *
 * Caution: a wrong register value can damage hardware or hurt people near what it drives. Before
 * use, compare these numbers with the datasheet and its errata for your revision of the part, and
 * follow local codes; where licensed practice is required, have it checked there.
 */
#ifndef ETHERNET_PHY_H
#define ETHERNET_PHY_H

#define REGWRIGHT_CHIP_ETHERNET_PHY 1U

/* Plain numbers, for C and for the assembler, which reads 0x0U but not 0U. */

/* CTRL: Basic mode control; 16 bits, read-write, mdio 0x00 (given) */
/* No volatile lvalue: C pointers do not reach it in one access. */
#define CTRL_MDIO_ADDR 0x00U
/* RESET: resets the PHY; 1 until it has ended; bit 15, read-write */
#define CTRL_RESET_BITPOS 15U
#define CTRL_RESET_MASK 0x8000U
/* LOOPBACK: sends back what it is given; bit 14, read-write */
#define CTRL_LOOPBACK_BITPOS 14U
#define CTRL_LOOPBACK_MASK 0x4000U
/* SPEED: one field in two places; bits 6,13, read-write, in pieces: EXTRACT and INSERT use an argument more than once */
#define CTRL_SPEED_BITPOS 13U
#define CTRL_SPEED_MASK 0x2040U
#define CTRL_SPEED_MBIT10 0x0000U
#define CTRL_SPEED_MBIT100 0x2000U
#define CTRL_SPEED_MBIT1000 0x0040U
/* AUTONEG: enables auto-negotiation; bit 12, read-write */
#define CTRL_AUTONEG_BITPOS 12U
#define CTRL_AUTONEG_MASK 0x1000U
/* POWER_DOWN: low power; bit 11, read-write */
#define CTRL_POWER_DOWN_BITPOS 11U
#define CTRL_POWER_DOWN_MASK 0x0800U
/* ISOLATE: disconnects the data paths; bit 10, read-write */
#define CTRL_ISOLATE_BITPOS 10U
#define CTRL_ISOLATE_MASK 0x0400U
/* RESTART: starts auto-negotiation again; bit 9, read-write */
#define CTRL_RESTART_BITPOS 9U
#define CTRL_RESTART_MASK 0x0200U
/* FULL_DUPLEX: full duplex; bit 8, read-write */
#define CTRL_FULL_DUPLEX_BITPOS 8U
#define CTRL_FULL_DUPLEX_MASK 0x0100U
/* COLLISION_TEST: collision test; bit 7, read-write */
#define CTRL_COLLISION_TEST_BITPOS 7U
#define CTRL_COLLISION_TEST_MASK 0x0080U

/* STATUS: Basic mode status; 16 bits, read-only, mdio 0x01 (given) */
/* No volatile lvalue: C pointers do not reach it in one access. */
#define STATUS_MDIO_ADDR 0x01U
/* CAN_100BASET4: bit 15, read-only */
#define STATUS_CAN_100BASET4_BITPOS 15U
#define STATUS_CAN_100BASET4_MASK 0x8000U
/* CAN_100FULL: bit 14, read-only */
#define STATUS_CAN_100FULL_BITPOS 14U
#define STATUS_CAN_100FULL_MASK 0x4000U
/* CAN_100HALF: bit 13, read-only */
#define STATUS_CAN_100HALF_BITPOS 13U
#define STATUS_CAN_100HALF_MASK 0x2000U
/* CAN_10FULL: bit 12, read-only */
#define STATUS_CAN_10FULL_BITPOS 12U
#define STATUS_CAN_10FULL_MASK 0x1000U
/* CAN_10HALF: bit 11, read-only */
#define STATUS_CAN_10HALF_BITPOS 11U
#define STATUS_CAN_10HALF_MASK 0x0800U
/* CAN_100BASET2FULL: bit 10, read-only */
#define STATUS_CAN_100BASET2FULL_BITPOS 10U
#define STATUS_CAN_100BASET2FULL_MASK 0x0400U
/* CAN_100BASET2HALF: bit 9, read-only */
#define STATUS_CAN_100BASET2HALF_BITPOS 9U
#define STATUS_CAN_100BASET2HALF_MASK 0x0200U
/* HAS_EXT_STATUS: bit 8, read-only */
#define STATUS_HAS_EXT_STATUS_BITPOS 8U
#define STATUS_HAS_EXT_STATUS_MASK 0x0100U
/* AUTONEG_DONE: bit 5, read-only */
#define STATUS_AUTONEG_DONE_BITPOS 5U
#define STATUS_AUTONEG_DONE_MASK 0x0020U
/* REMOTE_FAULT: bit 4, read-only */
#define STATUS_REMOTE_FAULT_BITPOS 4U
#define STATUS_REMOTE_FAULT_MASK 0x0010U
/* CAN_AUTONEG: bit 3, read-only */
#define STATUS_CAN_AUTONEG_BITPOS 3U
#define STATUS_CAN_AUTONEG_MASK 0x0008U
/* LINK: bit 2, read-only */
#define STATUS_LINK_BITPOS 2U
#define STATUS_LINK_MASK 0x0004U
/* JABBER: bit 1, read-only */
#define STATUS_JABBER_BITPOS 1U
#define STATUS_JABBER_MASK 0x0002U
/* HAS_EXT_REGISTERS: bit 0, read-only */
#define STATUS_HAS_EXT_REGISTERS_BITPOS 0x0U
#define STATUS_HAS_EXT_REGISTERS_MASK 0x0001U

/* ID1: PHY identifier, first part; 16 bits, read-only, mdio 0x02 (given) */
/* No volatile lvalue: C pointers do not reach it in one access. */
#define ID1_MDIO_ADDR 0x02U

/* ID2: PHY identifier, second part; 16 bits, read-only, mdio 0x03 (given) */
/* No volatile lvalue: C pointers do not reach it in one access. */
#define ID2_MDIO_ADDR 0x03U

/* ADVERTISE: What is offered to the partner; 16 bits, read-write, mdio 0x04 (given) */
/* No volatile lvalue: C pointers do not reach it in one access. */
#define ADVERTISE_MDIO_ADDR 0x04U
/* NEXT_PAGE: bit 15, read-write */
#define ADVERTISE_NEXT_PAGE_BITPOS 15U
#define ADVERTISE_NEXT_PAGE_MASK 0x8000U
/* ACKNOWLEDGE: bit 14, read-write */
#define ADVERTISE_ACKNOWLEDGE_BITPOS 14U
#define ADVERTISE_ACKNOWLEDGE_MASK 0x4000U
/* REMOTE_FAULT: bit 13, read-write */
#define ADVERTISE_REMOTE_FAULT_BITPOS 13U
#define ADVERTISE_REMOTE_FAULT_MASK 0x2000U
/* PAUSE_ASYM: bit 11, read-write */
#define ADVERTISE_PAUSE_ASYM_BITPOS 11U
#define ADVERTISE_PAUSE_ASYM_MASK 0x0800U
/* PAUSE: bit 10, read-write */
#define ADVERTISE_PAUSE_BITPOS 10U
#define ADVERTISE_PAUSE_MASK 0x0400U
/* CAN_100BASET4: bit 9, read-write */
#define ADVERTISE_CAN_100BASET4_BITPOS 9U
#define ADVERTISE_CAN_100BASET4_MASK 0x0200U
/* CAN_100FULL: bit 8, read-write */
#define ADVERTISE_CAN_100FULL_BITPOS 8U
#define ADVERTISE_CAN_100FULL_MASK 0x0100U
/* CAN_100HALF: bit 7, read-write */
#define ADVERTISE_CAN_100HALF_BITPOS 7U
#define ADVERTISE_CAN_100HALF_MASK 0x0080U
/* CAN_10FULL: bit 6, read-write */
#define ADVERTISE_CAN_10FULL_BITPOS 6U
#define ADVERTISE_CAN_10FULL_MASK 0x0040U
/* CAN_10HALF: bit 5, read-write */
#define ADVERTISE_CAN_10HALF_BITPOS 5U
#define ADVERTISE_CAN_10HALF_MASK 0x0020U
/* SELECTOR: bits 4:0, read-write */
#define ADVERTISE_SELECTOR_BITPOS 0x0U
#define ADVERTISE_SELECTOR_MASK 0x001FU
#define ADVERTISE_SELECTOR_CSMA 0x0001U

/* PARTNER: What the partner offers; 16 bits, read-only, mdio 0x05 (given) */
/* No volatile lvalue: C pointers do not reach it in one access. */
#define PARTNER_MDIO_ADDR 0x05U
/* NEXT_PAGE: bit 15, read-only */
#define PARTNER_NEXT_PAGE_BITPOS 15U
#define PARTNER_NEXT_PAGE_MASK 0x8000U
/* ACKNOWLEDGE: bit 14, read-only */
#define PARTNER_ACKNOWLEDGE_BITPOS 14U
#define PARTNER_ACKNOWLEDGE_MASK 0x4000U
/* REMOTE_FAULT: bit 13, read-only */
#define PARTNER_REMOTE_FAULT_BITPOS 13U
#define PARTNER_REMOTE_FAULT_MASK 0x2000U
/* PAUSE_ASYM: bit 11, read-only */
#define PARTNER_PAUSE_ASYM_BITPOS 11U
#define PARTNER_PAUSE_ASYM_MASK 0x0800U
/* PAUSE: bit 10, read-only */
#define PARTNER_PAUSE_BITPOS 10U
#define PARTNER_PAUSE_MASK 0x0400U
/* CAN_100BASET4: bit 9, read-only */
#define PARTNER_CAN_100BASET4_BITPOS 9U
#define PARTNER_CAN_100BASET4_MASK 0x0200U
/* CAN_100FULL: bit 8, read-only */
#define PARTNER_CAN_100FULL_BITPOS 8U
#define PARTNER_CAN_100FULL_MASK 0x0100U
/* CAN_100HALF: bit 7, read-only */
#define PARTNER_CAN_100HALF_BITPOS 7U
#define PARTNER_CAN_100HALF_MASK 0x0080U
/* CAN_10FULL: bit 6, read-only */
#define PARTNER_CAN_10FULL_BITPOS 6U
#define PARTNER_CAN_10FULL_MASK 0x0040U
/* CAN_10HALF: bit 5, read-only */
#define PARTNER_CAN_10HALF_BITPOS 5U
#define PARTNER_CAN_10HALF_MASK 0x0020U
/* SELECTOR: bits 4:0, read-only */
#define PARTNER_SELECTOR_BITPOS 0x0U
#define PARTNER_SELECTOR_MASK 0x001FU

/* AUTONEG_EXPANSION: Auto-negotiation expansion; 16 bits, read-only, mdio 0x06 (given) */
/* No volatile lvalue: C pointers do not reach it in one access. */
#define AUTONEG_EXPANSION_MDIO_ADDR 0x06U
/* MULTIPLE_FAULTS: bit 4, read-only */
#define AUTONEG_EXPANSION_MULTIPLE_FAULTS_BITPOS 4U
#define AUTONEG_EXPANSION_MULTIPLE_FAULTS_MASK 0x0010U
/* PARTNER_NEXT_PAGE: bit 3, read-only */
#define AUTONEG_EXPANSION_PARTNER_NEXT_PAGE_BITPOS 3U
#define AUTONEG_EXPANSION_PARTNER_NEXT_PAGE_MASK 0x0008U
/* NEXT_PAGE: bit 2, read-only */
#define AUTONEG_EXPANSION_NEXT_PAGE_BITPOS 2U
#define AUTONEG_EXPANSION_NEXT_PAGE_MASK 0x0004U
/* PAGE_RECEIVED: bit 1, read-only */
#define AUTONEG_EXPANSION_PAGE_RECEIVED_BITPOS 1U
#define AUTONEG_EXPANSION_PAGE_RECEIVED_MASK 0x0002U
/* PARTNER_AUTONEG: bit 0, read-only */
#define AUTONEG_EXPANSION_PARTNER_AUTONEG_BITPOS 0x0U
#define AUTONEG_EXPANSION_PARTNER_AUTONEG_MASK 0x0001U

/* CTRL1000: 1000BASE-T control; 16 bits, read-write, mdio 0x09 (given) */
/* No volatile lvalue: C pointers do not reach it in one access. */
#define CTRL1000_MDIO_ADDR 0x09U
/* MANUAL_MASTER: sets master or slave by hand; bit 12, read-write */
#define CTRL1000_MANUAL_MASTER_BITPOS 12U
#define CTRL1000_MANUAL_MASTER_MASK 0x1000U
/* MASTER: bit 11, read-write */
#define CTRL1000_MASTER_BITPOS 11U
#define CTRL1000_MASTER_MASK 0x0800U
/* PREFER_MASTER: bit 10, read-write */
#define CTRL1000_PREFER_MASTER_BITPOS 10U
#define CTRL1000_PREFER_MASTER_MASK 0x0400U
/* CAN_FULL: bit 9, read-write */
#define CTRL1000_CAN_FULL_BITPOS 9U
#define CTRL1000_CAN_FULL_MASK 0x0200U
/* CAN_HALF: bit 8, read-write */
#define CTRL1000_CAN_HALF_BITPOS 8U
#define CTRL1000_CAN_HALF_MASK 0x0100U

/* STATUS1000: 1000BASE-T status; 16 bits, read-only, mdio 0x0A (given) */
/* No volatile lvalue: C pointers do not reach it in one access. */
#define STATUS1000_MDIO_ADDR 0x0AU
/* MASTER_FAULT: bit 15, read-only */
#define STATUS1000_MASTER_FAULT_BITPOS 15U
#define STATUS1000_MASTER_FAULT_MASK 0x8000U
/* IS_MASTER: bit 14, read-only */
#define STATUS1000_IS_MASTER_BITPOS 14U
#define STATUS1000_IS_MASTER_MASK 0x4000U
/* LOCAL_RX_OK: bit 13, read-only */
#define STATUS1000_LOCAL_RX_OK_BITPOS 13U
#define STATUS1000_LOCAL_RX_OK_MASK 0x2000U
/* REMOTE_RX_OK: bit 12, read-only */
#define STATUS1000_REMOTE_RX_OK_BITPOS 12U
#define STATUS1000_REMOTE_RX_OK_MASK 0x1000U
/* PARTNER_FULL: bit 11, read-only */
#define STATUS1000_PARTNER_FULL_BITPOS 11U
#define STATUS1000_PARTNER_FULL_MASK 0x0800U
/* PARTNER_HALF: bit 10, read-only */
#define STATUS1000_PARTNER_HALF_BITPOS 10U
#define STATUS1000_PARTNER_HALF_MASK 0x0400U

/* MMD_CTRL: Access to the registers of clause 45, control; 16 bits, read-write, mdio 0x0D (given) */
/* No volatile lvalue: C pointers do not reach it in one access. */
#define MMD_CTRL_MDIO_ADDR 0x0DU
/* FUNCTION: bits 15:14, read-write */
#define MMD_CTRL_FUNCTION_BITPOS 14U
#define MMD_CTRL_FUNCTION_MASK 0xC000U
#define MMD_CTRL_FUNCTION_ADDRESS 0x0000U
#define MMD_CTRL_FUNCTION_DATA 0x4000U
#define MMD_CTRL_FUNCTION_DATA_INCREMENT 0x8000U
#define MMD_CTRL_FUNCTION_DATA_WRITE_INCREMENT 0xC000U
/* DEVICE: bits 4:0, read-write */
#define MMD_CTRL_DEVICE_BITPOS 0x0U
#define MMD_CTRL_DEVICE_MASK 0x001FU

/* MMD_DATA: Access to the registers of clause 45, address or data; 16 bits, read-write, mdio 0x0E (given) */
/* No volatile lvalue: C pointers do not reach it in one access. */
#define MMD_DATA_MDIO_ADDR 0x0EU

/* STATUS_EXT: Extended status; 16 bits, read-only, mdio 0x0F (given) */
/* No volatile lvalue: C pointers do not reach it in one access. */
#define STATUS_EXT_MDIO_ADDR 0x0FU
/* CAN_1000XFULL: bit 15, read-only */
#define STATUS_EXT_CAN_1000XFULL_BITPOS 15U
#define STATUS_EXT_CAN_1000XFULL_MASK 0x8000U
/* CAN_1000XHALF: bit 14, read-only */
#define STATUS_EXT_CAN_1000XHALF_BITPOS 14U
#define STATUS_EXT_CAN_1000XHALF_MASK 0x4000U
/* CAN_1000TFULL: bit 13, read-only */
#define STATUS_EXT_CAN_1000TFULL_BITPOS 13U
#define STATUS_EXT_CAN_1000TFULL_MASK 0x2000U
/* CAN_1000THALF: bit 12, read-only */
#define STATUS_EXT_CAN_1000THALF_BITPOS 12U
#define STATUS_EXT_CAN_1000THALF_MASK 0x1000U

#ifndef __ASSEMBLER__
#include <stdint.h>

#define CTRL_SPEED_EXTRACT(value) ((uint16_t)((((uint16_t)(value) & 0x2000U) >> 13) | (((uint16_t)(value) & 0x0040U) >> 5)))
#define CTRL_SPEED_INSERT(value, field) ((uint16_t)(((uint16_t)(value) & 0xDFBFU) | (((uint16_t)(field) & 0x0001U) << 13) | (((uint16_t)(field) & 0x0002U) << 5)))
#define ADVERTISE_SELECTOR_EXTRACT(value) ((uint16_t)(((uint16_t)(value) & 0x001FU)))
#define ADVERTISE_SELECTOR_INSERT(value, field) ((uint16_t)(((uint16_t)(value) & 0xFFE0U) | ((uint16_t)(field) & 0x001FU)))
#define PARTNER_SELECTOR_EXTRACT(value) ((uint16_t)(((uint16_t)(value) & 0x001FU)))
#define PARTNER_SELECTOR_INSERT(value, field) ((uint16_t)(((uint16_t)(value) & 0xFFE0U) | ((uint16_t)(field) & 0x001FU)))
#define MMD_CTRL_FUNCTION_EXTRACT(value) ((uint16_t)((((uint16_t)(value) & 0xC000U) >> 14)))
#define MMD_CTRL_FUNCTION_INSERT(value, field) ((uint16_t)(((uint16_t)(value) & 0x3FFFU) | (((uint16_t)(field) & 0x0003U) << 14)))
#define MMD_CTRL_DEVICE_EXTRACT(value) ((uint16_t)(((uint16_t)(value) & 0x001FU)))
#define MMD_CTRL_DEVICE_INSERT(value, field) ((uint16_t)(((uint16_t)(value) & 0xFFE0U) | ((uint16_t)(field) & 0x001FU)))

#endif /* __ASSEMBLER__ */
#endif /* ETHERNET_PHY_H */
