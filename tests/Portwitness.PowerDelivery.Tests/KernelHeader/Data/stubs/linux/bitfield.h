#ifndef STUB_BITFIELD_H
#define STUB_BITFIELD_H
#define FIELD_GET(mask, word) (((word) & (mask)) >> __builtin_ctzl(mask))
#endif
