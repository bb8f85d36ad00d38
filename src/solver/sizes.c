/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "solver/sizes.h"

#include "design/catalogue.h"

static SizesFitting
fitting_of (FittingClass class_)
{
  switch (class_) {
  case FITTING_CLASS_UNION:
    return SIZES_UNION;
  case FITTING_CLASS_GATE_VALVE:
    return SIZES_GATE;
  case FITTING_CLASS_BALL_VALVE:
    return SIZES_BALL;
  case FITTING_CLASS_CHECK_VALVE:
    return SIZES_CHECK;
  case FITTING_CLASS_BULKHEAD:
    return SIZES_BULKHEAD;
  case FITTING_CLASS_STRAINER:
    return SIZES_STRAINER;
  case FITTING_CLASS_REDUCER:
    return SIZES_REDUCER;
  case FITTING_CLASS_TEE_RUN:
    return SIZES_TEE_RUN;
  case FITTING_CLASS_OTHER:
  case N_FITTING_CLASSES:
  default:
    return SIZES_OTHER;
  }
}

bool
sizes_pipe (const Catalogue *catalogue, const char *key, PipeFigures *ret_figures)
{
  const PipeSize *size = key != NULL ? catalogue_find_pipe (catalogue, key) : NULL;

  if (size == NULL)
    return false;
  *ret_figures = (PipeFigures){.inside_m = size->inside_m, .hose = size->hose};
  return true;
}

bool
sizes_fitting (const Catalogue *catalogue, const char *key, FittingFigures *ret_figures)
{
  const FittingType *type = key != NULL ? catalogue_find_fitting (catalogue, key) : NULL;

  if (type == NULL)
    return false;
  *ret_figures =
      (FittingFigures){.fitting = fitting_of (type->class_), .k = type->k, .cracking_m = type->cracking_m};
  return true;
}

Catalogue *
sizes_ref (Catalogue *catalogue)
{
  return catalogue_ref (catalogue);
}

void
sizes_unref (Catalogue *catalogue)
{
  catalogue_unref (catalogue);
}
