/* What pd.h, pd_vdo.h and pd_ado.h take from the kernel, for a program in user space. */
#ifndef STUB_KERNEL_H
#define STUB_KERNEL_H
#include <linux/types.h>
#define BIT(bit) (1UL << (bit))
#define GENMASK(high, low) ((0xFFFFFFFFUL >> (31 - (high))) & (0xFFFFFFFFUL << (low)))
#define IS_ENABLED(option) 0
#define __packed __attribute__((packed))
#define cpu_to_le16(value) (value)
#define cpu_to_le32(value) (value)
#define le16_to_cpu(value) (value)
#define le32_to_cpu(value) (value)
#endif
