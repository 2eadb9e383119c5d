/*
 * Prints words that the kernel's macros make of random fields, one a line: type, word, and each field as name=value, named
 * as in shared/vectors. Arguments: seed and number of words of each type. Where the header has a function that takes the
 * field out again, the program checks that both agree, and ends with 3 when they do not.
 */
#include <stdio.h>
#include <stdlib.h>
#include <linux/usb/pd.h>
#include <linux/usb/pd_vdo.h>
#include <linux/usb/pd_ado.h>

static u32 state;

/* xorshift32: 0 to below the limit. */
static int r(u32 limit)
{
	state ^= state << 13;
	state ^= state >> 17;
	state ^= state << 5;
	return (int)((state >> 3) % limit);
}

static void same(const char *what, u32 taken, u32 given)
{
	if (taken == given)
		return;
	fprintf(stderr, "%s: the header takes out %u of %u\n", what, taken, given);
	exit(3);
}

static void power(void)
{
	int mv = 50 * r(1024), low = 50 * r(1024), ma = 10 * r(1024), mw = 250 * r(1024), peak = r(4), frs = r(4);
	int drp = r(2), susp = r(2), ext = r(2), comm = r(2), drd = r(2), unch = r(2);
	u32 common = (drp ? PDO_FIXED_DUAL_ROLE : 0) | (ext ? PDO_FIXED_EXTPOWER : 0) | (comm ? PDO_FIXED_USB_COMM : 0)
		| (drd ? PDO_FIXED_DATA_SWAP : 0);
	u32 word = PDO_FIXED(mv, ma, common | (susp ? PDO_FIXED_SUSPEND : 0) | (unch ? PDO_FIXED_UNCHUNK_EXT : 0)
		| ((u32)peak << PDO_FIXED_PEAK_CURR_SHIFT));

	same("fixed type", pdo_type(word), PDO_TYPE_FIXED);
	same("fixed voltage", pdo_fixed_voltage(word), mv);
	same("fixed current", pdo_max_current(word), ma);
	printf("fixed_source %u voltage_mv=%d max_current_ma=%d peak_current_code=%d dual_role_power=%d "
		"usb_suspend_supported=%d unconstrained_power=%d usb_communications_capable=%d dual_role_data=%d "
		"unchunked_extended_messages=%d\n", word, mv, ma, peak, drp, susp, ext, comm, drd, unch);

	word = PDO_FIXED(mv, ma, common | (susp ? PDO_FIXED_HIGHER_CAP : 0) | ((u32)frs << PDO_FIXED_FRS_CURR_SHIFT));
	printf("fixed_sink %u voltage_mv=%d operational_current_ma=%d fast_role_swap_code=%d dual_role_power=%d "
		"higher_capability=%d unconstrained_power=%d usb_communications_capable=%d dual_role_data=%d\n",
		word, mv, ma, frs, drp, susp, ext, comm, drd);

	word = PDO_BATT(low, mv, mw);
	same("battery type", pdo_type(word), PDO_TYPE_BATT);
	same("battery minimum", pdo_min_voltage(word), low);
	same("battery maximum", pdo_max_voltage(word), mv);
	same("battery power", pdo_max_power(word), mw);
	printf("battery_source %u min_voltage_mv=%d max_voltage_mv=%d max_power_mw=%d\n", word, low, mv, mw);
	printf("battery_sink %u min_voltage_mv=%d max_voltage_mv=%d operational_power_mw=%d\n", word, low, mv, mw);

	word = PDO_VAR(low, mv, ma);
	same("variable type", pdo_type(word), PDO_TYPE_VAR);
	printf("variable_source %u min_voltage_mv=%d max_voltage_mv=%d max_current_ma=%d\n", word, low, mv, ma);
	printf("variable_sink %u min_voltage_mv=%d max_voltage_mv=%d operational_current_ma=%d\n", word, low, mv, ma);

	mv = 100 * r(256), low = 100 * r(256), ma = 50 * r(128);
	word = PDO_PPS_APDO(low, mv, ma);
	same("APDO type", pdo_type(word), PDO_TYPE_APDO);
	same("PPS subtype", pdo_apdo_type(word), APDO_TYPE_PPS);
	same("PPS minimum", pdo_pps_apdo_min_voltage(word), low);
	same("PPS maximum", pdo_pps_apdo_max_voltage(word), mv);
	same("PPS current", pdo_pps_apdo_max_current(word), ma);
	printf("pps_source %u min_voltage_mv=%d max_voltage_mv=%d max_current_ma=%d\n", word, low, mv, ma);
	printf("pps_sink %u min_voltage_mv=%d max_voltage_mv=%d max_current_ma=%d\n", word, low, mv, ma);
}

static void request(void)
{
	int position = r(8), give = r(2), mismatch = r(2), comm = r(2), awake = r(2), ma = 10 * r(1024), low = 10 * r(1024);
	int mw = 250 * r(1024), lowmw = 250 * r(1024), mv = 20 * r(2048), op = 50 * r(128);
	u32 flags = (mismatch ? RDO_CAP_MISMATCH : 0) | (comm ? RDO_USB_COMM : 0) | (awake ? RDO_NO_SUSPEND : 0);
	u32 word = RDO_FIXED(position, ma, low, flags | (give ? RDO_GIVE_BACK : 0));

	same("position", rdo_index(word), position);
	same("operating current", rdo_op_current(word), ma);
	same("low current", rdo_max_current(word), low);
	printf("fixed_variable_request %u object_position=%d give_back=%d capability_mismatch=%d "
		"usb_communications_capable=%d no_usb_suspend=%d operating_current_ma=%d %s_operating_current_ma=%d\n",
		word, position, give, mismatch, comm, awake, ma, give ? "min" : "max", low);

	word = RDO_BATT(position, mw, lowmw, flags | (give ? RDO_GIVE_BACK : 0));
	same("operating power", rdo_op_power(word), mw);
	same("low power", rdo_max_power(word), lowmw);
	printf("battery_request %u object_position=%d give_back=%d capability_mismatch=%d usb_communications_capable=%d "
		"no_usb_suspend=%d operating_power_mw=%d %s_operating_power_mw=%d\n",
		word, position, give, mismatch, comm, awake, mw, give ? "min" : "max", lowmw);

	word = RDO_PROG(position, mv, op, flags);
	printf("pps_request %u object_position=%d capability_mismatch=%d usb_communications_capable=%d no_usb_suspend=%d "
		"output_voltage_mv=%d operating_current_ma=%d\n", word, position, mismatch, comm, awake, mv, op);
}

static void header(void)
{
	int type = r(32), source = r(2), host = r(2), rev = r(4), id = r(8), count = r(8), extended = r(2);
	int class = extended ? 2 : count == 0 ? 0 : 1;
	u16 word = PD_HEADER(type, source ? TYPEC_SOURCE : TYPEC_SINK, host ? TYPEC_HOST : TYPEC_DEVICE, rev, id, count, extended);

	same("count", pd_header_cnt(word), count);
	same("type", pd_header_type(word), type);
	same("id", pd_header_msgid(word), id);
	same("revision", pd_header_rev(word), rev);
	printf("message_header %u kind=%d object_count=%d message_id=%d source_or_cable_plug=%d revision_code=%d "
		"downstream_facing=%d\n", word, class * 32 + type, count, id, source, rev, host);

	int size = r(512), request = r(2), number = r(16), chunked = r(2);

	word = PD_EXT_HDR(size, request, number, chunked);
	same("chunk number", pd_ext_header_chunk_num(word), number);
	same("size", pd_ext_header_data_size(word), size);
	printf("extended_header %u chunked=%d chunk_number=%d request_chunk=%d data_size=%d\n",
		word, chunked, number, request, size);
}

static void vendor(void)
{
	int svid = r(65536), other = r(65536), version = r(4), position = r(8), type = r(4), command = r(32), use = r(32768);
	u32 word = VDO((u32)svid, 1u, version, VDO_OPOS(position) | VDO_CMDT(type) | command);

	same("svid", PD_VDO_VID(word), svid);
	same("version", PD_VDO_SVDM_VER(word), version);
	same("position", PD_VDO_OPOS(word), position);
	same("command type", PD_VDO_CMDT(word), type);
	same("command", PD_VDO_CMD(word), command);
	printf("structured_vdm %u svid=%d structured=1 major_version_code=%d object_position=%d command_type=%d command=%d\n",
		word, svid, version, position, type, command);
	word = VDO((u32)svid, 0u, 0, use);
	printf("unstructured_vdm %u svid=%d vendor_use=%d\n", word, svid, use);

	int host = r(2), device = r(2), ufp = r(8), modal = r(2), dfp = r(8), plug = r(4);

	word = VDO_IDH((u32)host, (u32)device, (u32)ufp, modal, dfp, plug, svid);
	same("product type", PD_IDH_PTYPE(word), ufp);
	same("DFP type", PD_IDH_DFP_PTYPE(word), dfp);
	same("connector", PD_IDH_CONN_TYPE(word), plug);
	printf("id_header %u usb_host=%d usb_device=%d product_type_code=%d modal_operation=%d dfp_type_code=%d "
		"connector_code=%d vendor_id=%d\n", word, host, device, ufp, modal, dfp, plug, svid);
	word = VDO_PRODUCT((u32)svid, other);
	same("product", PD_PRODUCT_PID(word), svid);
	printf("product %u product_id=%d device_release=%d\n", word, svid, other);
	word = VDO_SVID((u32)svid, other);
	same("second svid", PD_VDO_SVID_SVID1(word), other);
	printf("svid_pair %u first=%d second=%d\n", word, svid, other);

	int cap = r(16), vcpwr = r(8), vcr = r(2), vbr = r(2), alt = r(8), speed = r(8), port = r(32), uver = r(8);

	word = VDO_UFP((u32)uver, cap, plug, vcpwr, vcr, vbr, alt, speed);
	same("device capability", PD_VDO_UFP_DEVCAP(word), cap);
	printf("ufp %u version_code=%d device_capability=%d connector_code=%d vconn_power_code=%d vconn_required=%d "
		"vbus_not_required=%d alternate_modes=%d speed_code=%d\n", word, uver, cap, plug, vcpwr, vcr, vbr, alt, speed);
	word = VDO_DFP((u32)uver, alt, plug, port);
	same("host capability", PD_VDO_DFP_HOSTCAP(word), alt);
	printf("dfp %u version_code=%d host_capability=%d connector_code=%d port_number=%d\n", word, uver, alt, plug, port);
}

static void cable(void)
{
	int hw = r(16), fw = r(16), ver = r(8), plug = r(4), lat = r(16), term = r(4), vbm = r(4), cur = r(4), speed = r(8);
	int sbu = r(2), sbut = r(2), vbt = r(2), sopp = r(2);
	u32 word = VDO_PCABLE((u32)hw, (u32)fw, ver, plug, lat, term, vbm, cur, speed);

	printf("passive_cable %u hardware_version=%d firmware_version=%d vdo_version_code=%d plug_code=%d latency_code=%d "
		"termination_code=%d max_vbus_code=%d current_code=%d speed_code=%d\n",
		word, hw, fw, ver, plug, lat, term, vbm, cur, speed);
	word = VDO_ACABLE1((u32)hw, (u32)fw, ver, plug, lat, term, vbm, sbu, sbut, cur, vbt, sopp, speed);
	printf("active_cable %u hardware_version=%d firmware_version=%d vdo_version_code=%d plug_code=%d latency_code=%d "
		"termination_code=%d max_vbus_code=%d sbu_not_supported=%d sbu_active=%d current_code=%d vbus_through_cable=%d "
		"sop_double_prime=%d speed_code=%d\n",
		word, hw, fw, ver, plug, lat, term, vbm, sbu, sbut, cur, vbt, sopp, speed);

	int mtemp = r(256), stemp = r(256), idle = r(8), trans = r(2), optical = r(2), retimer = r(2), u4 = r(2), hops = r(4);
	int u2 = r(2), u32no = r(2), lanes = r(2), isolated = r(2), gen = r(2);

	word = VDO_ACABLE2((u32)mtemp, (u32)stemp, idle, trans, optical, retimer, u4, hops, u2, u32no, lanes, isolated, gen);
	printf("active_cable_2 %u max_operating_temperature=%d shutdown_temperature=%d idle_power_code=%d through_u3s=%d "
		"optical=%d retimer=%d usb4_not_supported=%d hub_hops=%d usb2_not_supported=%d usb32_not_supported=%d two_lanes=%d "
		"optically_isolated=%d gen2=%d\n",
		word, mtemp, stemp, idle, trans, optical, retimer, u4, hops, u2, u32no, lanes, isolated, gen);

	int vbi = r(64), gi = r(64), through = r(2), high = r(2);

	word = VDO_VPD((u32)hw, (u32)fw, ver, vbm, high, vbi, gi, through);
	printf("vpd %u hardware_version=%d firmware_version=%d vdo_version_code=%d max_vbus_code=%d charge_through_5a=%d "
		"vbus_impedance_code=%d ground_impedance_code=%d charge_through=%d\n",
		word, hw, fw, ver, vbm, high, vbi, gi, through);
}

static void small(void)
{
	int mode = r(8), speed = r(8), type = r(4), current = r(4), drd4 = r(2), drd3 = r(2), pcie = r(2), dp = r(2), tbt = r(2);
	int host = r(2);
	u32 word = ((u32)mode << EUDO_USB_MODE_SHIFT) | ((u32)speed << EUDO_CABLE_SPEED_SHIFT)
		| ((u32)type << EUDO_CABLE_TYPE_SHIFT) | ((u32)current << EUDO_CABLE_CURRENT_SHIFT) | (drd4 ? EUDO_USB4_DRD : 0)
		| (drd3 ? EUDO_USB3_DRD : 0) | (pcie ? EUDO_PCIE_SUPPORT : 0) | (dp ? EUDO_DP_SUPPORT : 0)
		| (tbt ? EUDO_TBT_SUPPORT : 0) | (host ? EUDO_HOST_PRESENT : 0);

	printf("enter_usb %u mode_code=%d cable_speed_code=%d cable_type_code=%d cable_current_code=%d usb4_drd=%d usb3_drd=%d "
		"pcie=%d dp=%d tbt=%d host_present=%d\n", word, mode, speed, type, current, drd4, drd3, pcie, dp, tbt, host);

	word = (u32)(r(128) & 0x7E) << USB_PD_ADO_TYPE_SHIFT | (u32)r(256) << USB_PD_ADO_HOT_SWAP_BATT_SHIFT;
	printf("alert %u ovp=%d source_input_change=%d operating_condition_change=%d otp=%d ocp=%d battery_status_change=%d "
		"fixed_batteries=%u hot_swappable_batteries=%u\n", word,
		!!(usb_pd_ado_type(word) & USB_PD_ADO_TYPE_OVP), !!(usb_pd_ado_type(word) & USB_PD_ADO_TYPE_SRC_INPUT_CHANGE),
		!!(usb_pd_ado_type(word) & USB_PD_ADO_TYPE_OP_COND_CHANGE), !!(usb_pd_ado_type(word) & USB_PD_ADO_TYPE_OTP),
		!!(usb_pd_ado_type(word) & USB_PD_ADO_TYPE_OCP), !!(usb_pd_ado_type(word) & USB_PD_ADO_TYPE_BATT_STATUS_CHANGE),
		usb_pd_ado_fixed_batt(word), usb_pd_ado_hot_swap_batt(word));
}

int main(int argc, char **argv)
{
	if (argc != 3)
		return 2;
	state = (u32)strtoul(argv[1], NULL, 10) | 1;
	for (long left = strtol(argv[2], NULL, 10); left > 0; left--) {
		power();
		request();
		header();
		vendor();
		cable();
		small();
	}
	return 0;
}
