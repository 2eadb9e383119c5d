static const uint32_t src_pdo[] = {
	0x0801912C,	/* 5 V 3 A */
	0x0002D12C,	/* 9 V 3 A */
	0x0004B12C,	/* 15 V 3 A */
};
