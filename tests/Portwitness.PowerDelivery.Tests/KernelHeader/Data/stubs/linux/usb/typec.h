/* The names of the roles that PD_HEADER compares with. */
#ifndef STUB_TYPEC_H
#define STUB_TYPEC_H
enum typec_role { TYPEC_SINK, TYPEC_SOURCE };
enum typec_data_role { TYPEC_DEVICE, TYPEC_HOST };
#endif
