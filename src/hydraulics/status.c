/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "hydraulics/status.h"

const char *
hydraulics_status_text (HydraulicsStatus status)
{
  switch (status) {
#define HYDRAULICS_STATUS_CASE(name, text)                                                                   \
  case HYDRAULICS_##name:                                                                                    \
    return text;
    HYDRAULICS_STATUSES (HYDRAULICS_STATUS_CASE)
#undef HYDRAULICS_STATUS_CASE
  }
  return "unknown status";
}
