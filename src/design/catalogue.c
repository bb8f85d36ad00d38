/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "design/catalogue.h"

#include <math.h>

/* Strings of the entries live in `strings` for as long as the catalogue. */
struct _Catalogue {
  gatomicrefcount references;
  GStringChunk *strings;
  GPtrArray *pipes, *fittings, *pumps;
  GHashTable *by_key[3];
};

enum { TABLE_PIPES, TABLE_FITTINGS, TABLE_PUMPS };

Catalogue *
catalogue_new (void)
{
  Catalogue *catalogue = g_new0 (Catalogue, 1);

  g_atomic_ref_count_init (&catalogue->references);
  catalogue->strings = g_string_chunk_new (1024);
  catalogue->pipes = g_ptr_array_new_with_free_func (g_free);
  catalogue->fittings = g_ptr_array_new_with_free_func (g_free);
  catalogue->pumps = g_ptr_array_new_with_free_func (g_free);
  for (unsigned i = 0; i < G_N_ELEMENTS (catalogue->by_key); i++)
    catalogue->by_key[i] = g_hash_table_new (g_str_hash, g_str_equal);
  return catalogue;
}

Catalogue *
catalogue_ref (Catalogue *catalogue)
{
  g_atomic_ref_count_inc (&catalogue->references);
  return catalogue;
}

void
catalogue_unref (Catalogue *catalogue)
{
  if (catalogue == NULL || !g_atomic_ref_count_dec (&catalogue->references))
    return;
  for (unsigned i = 0; i < G_N_ELEMENTS (catalogue->by_key); i++)
    g_hash_table_unref (catalogue->by_key[i]);
  g_ptr_array_unref (catalogue->pipes);
  g_ptr_array_unref (catalogue->fittings);
  g_ptr_array_unref (catalogue->pumps);
  g_string_chunk_free (catalogue->strings);
  g_free (catalogue);
}

static const char *
keep (Catalogue *catalogue, const char *text)
{
  return g_string_chunk_insert_const (catalogue->strings, text != NULL ? text : "");
}

static bool
positive (double value)
{
  return isfinite (value) && value > 0;
}

static bool
not_negative (double value)
{
  return isfinite (value) && value >= 0;
}

static bool
is_free (const Catalogue *catalogue, int table, const char *key)
{
  return key != NULL && key[0] != '\0' && !g_hash_table_contains (catalogue->by_key[table], key);
}

bool
catalogue_add_pipe (Catalogue *catalogue, const PipeSize *size)
{
  PipeSize *copy;

  if (!is_free (catalogue, TABLE_PIPES, size->key) || !positive (size->inside_m) ||
      !positive (size->outside_m) || size->outside_m < size->inside_m || !positive (size->nominal_in) ||
      !not_negative (size->socket_m))
    return false;
  copy = g_memdup2 (size, sizeof *size);
  copy->key = keep (catalogue, size->key);
  copy->name = keep (catalogue, size->name);
  copy->standard = keep (catalogue, size->standard);
  g_ptr_array_add (catalogue->pipes, copy);
  g_hash_table_insert (catalogue->by_key[TABLE_PIPES], (char *) copy->key, copy);
  return true;
}

bool
catalogue_add_fitting (Catalogue *catalogue, const FittingType *type)
{
  FittingType *copy;

  if (!is_free (catalogue, TABLE_FITTINGS, type->key) || !not_negative (type->k) ||
      !not_negative (type->cracking_m) || !not_negative (type->length_m) ||
      (unsigned) type->class_ >= N_FITTING_CLASSES)
    return false;
  copy = g_memdup2 (type, sizeof *type);
  copy->key = keep (catalogue, type->key);
  copy->name = keep (catalogue, type->name);
  g_ptr_array_add (catalogue->fittings, copy);
  g_hash_table_insert (catalogue->by_key[TABLE_FITTINGS], (char *) copy->key, copy);
  return true;
}

bool
catalogue_add_pump (Catalogue *catalogue, const PumpType *type)
{
  PumpType *copy;

  if (!is_free (catalogue, TABLE_PUMPS, type->key) || !positive (type->watts) ||
      !positive (type->min_speed) || type->min_speed > 1 || !not_negative (type->length_m) ||
      !not_negative (type->width_m) || !not_negative (type->height_m))
    return false;
  copy = g_memdup2 (type, sizeof *type);
  copy->key = keep (catalogue, type->key);
  copy->name = keep (catalogue, type->name);
  copy->curve = keep (catalogue, type->curve);
  g_ptr_array_add (catalogue->pumps, copy);
  g_hash_table_insert (catalogue->by_key[TABLE_PUMPS], (char *) copy->key, copy);
  return true;
}

unsigned
catalogue_n_pipes (const Catalogue *catalogue)
{
  return catalogue->pipes->len;
}

const PipeSize *
catalogue_pipe (const Catalogue *catalogue, unsigned index)
{
  return g_ptr_array_index (catalogue->pipes, index);
}

unsigned
catalogue_n_fittings (const Catalogue *catalogue)
{
  return catalogue->fittings->len;
}

const FittingType *
catalogue_fitting (const Catalogue *catalogue, unsigned index)
{
  return g_ptr_array_index (catalogue->fittings, index);
}

unsigned
catalogue_n_pumps (const Catalogue *catalogue)
{
  return catalogue->pumps->len;
}

const PumpType *
catalogue_pump (const Catalogue *catalogue, unsigned index)
{
  return g_ptr_array_index (catalogue->pumps, index);
}

static const void *
find (const Catalogue *catalogue, int table, const char *key)
{
  return key != NULL ? g_hash_table_lookup (catalogue->by_key[table], key) : NULL;
}

const PipeSize *
catalogue_find_pipe (const Catalogue *catalogue, const char *key)
{
  return find (catalogue, TABLE_PIPES, key);
}

const FittingType *
catalogue_find_fitting (const Catalogue *catalogue, const char *key)
{
  return find (catalogue, TABLE_FITTINGS, key);
}

const PumpType *
catalogue_find_pump (const Catalogue *catalogue, const char *key)
{
  return find (catalogue, TABLE_PUMPS, key);
}
