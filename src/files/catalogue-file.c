/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "config.h"

#include "files/catalogue-file.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "design/curve.h"
#include "files/resource-data.h"
#include "files/xml-guard.h"
#include "units/parse.h"

/* Words of FittingClass in files. */
static const char *const class_words[N_FITTING_CLASSES] = {
    [FITTING_CLASS_UNION] = "union",           [FITTING_CLASS_GATE_VALVE] = "gate-valve",
    [FITTING_CLASS_BALL_VALVE] = "ball-valve", [FITTING_CLASS_CHECK_VALVE] = "check-valve",
    [FITTING_CLASS_BULKHEAD] = "bulkhead",     [FITTING_CLASS_STRAINER] = "strainer",
    [FITTING_CLASS_REDUCER] = "reducer",       [FITTING_CLASS_TEE_RUN] = "tee-run",
    [FITTING_CLASS_OTHER] = "other",
};

/* One element being read; the first fault ends it. */
typedef struct {
  const xmlNode *element;
  const char *name; /* of the file */
  GPtrArray *texts; /* keeps the attributes alive until the entry is added */
  GError **error;
  gboolean fine;
} Entry;

static const char *
text (Entry *entry, const char *attribute)
{
  char *value = xml_guard_attribute (entry->element, attribute);

  if (value != NULL) {
    g_ptr_array_add (entry->texts, value);
    return value;
  }
  if (entry->fine)
    entry->fine =
        files_error_set (entry->error, FILES_ERROR_BAD_STRUCTURE, entry->name, xmlGetLineNo (entry->element),
                         _ ("this %s lacks the attribute “%s”."), entry->element->name, attribute);
  return "";
}

static double
number (Entry *entry, const char *attribute)
{
  const char *value = text (entry, attribute);
  double result = 0.0;

  if (entry->fine && !units_parse_si (value, &result))
    entry->fine = files_error_set (
        entry->error, FILES_ERROR_BAD_VALUE, entry->name, xmlGetLineNo (entry->element),
        _ ("“%s” cannot be “%s”: it takes a number with a decimal point."), attribute, value);
  return result;
}

static void
check_attributes (Entry *entry, const char *const *allowed)
{
  const char *stray = xml_guard_stray_attribute (entry->element, allowed);

  if (stray != NULL && entry->fine)
    entry->fine =
        files_error_set (entry->error, FILES_ERROR_BAD_STRUCTURE, entry->name, xmlGetLineNo (entry->element),
                         _ ("Downcomer does not know the attribute “%s” here."), stray);
}

static FittingClass
fitting_class (Entry *entry)
{
  const char *word = text (entry, "class");

  for (FittingClass class_ = 0; class_ < N_FITTING_CLASSES; class_++)
    if (strcmp (class_words[class_], word) == 0)
      return class_;
  if (entry->fine)
    entry->fine =
        files_error_set (entry->error, FILES_ERROR_BAD_VALUE, entry->name, xmlGetLineNo (entry->element),
                         _ ("“%s” is not a class of fittings."), word);
  return FITTING_CLASS_OTHER;
}

/* The catalogue's own refusal, after every attribute was read. */
static void
added (Entry *entry, bool accepted, const char *key)
{
  if (entry->fine && !accepted)
    entry->fine = files_error_set (
        entry->error, FILES_ERROR_BAD_VALUE, entry->name, xmlGetLineNo (entry->element),
        _ ("“%s” cannot be added: its key is taken or one of its figures is impossible."), key);
}

static void
read_pipe (Entry *entry, Catalogue *catalogue)
{
  static const char *const allowed[] = {"key",    "name",       "standard", "outside",
                                        "inside", "nominal-in", "socket",   NULL};
  PipeSize size = {.key = text (entry, "key"),
                   .name = text (entry, "name"),
                   .standard = text (entry, "standard"),
                   .inside_m = number (entry, "inside"),
                   .outside_m = number (entry, "outside"),
                   .nominal_in = number (entry, "nominal-in"),
                   .socket_m = number (entry, "socket")};

  check_attributes (entry, allowed);
  added (entry, entry->fine && catalogue_add_pipe (catalogue, &size), size.key);
}

static void
read_hose (Entry *entry, Catalogue *catalogue)
{
  static const char *const allowed[] = {"key", "name", "outside", "inside", "nominal-in", NULL};
  PipeSize size = {.key = text (entry, "key"),
                   .name = text (entry, "name"),
                   .standard = "",
                   .inside_m = number (entry, "inside"),
                   .outside_m = number (entry, "outside"),
                   .nominal_in = number (entry, "nominal-in"),
                   .hose = true};

  check_attributes (entry, allowed);
  added (entry, entry->fine && catalogue_add_pipe (catalogue, &size), size.key);
}

static void
read_fitting (Entry *entry, Catalogue *catalogue)
{
  static const char *const allowed[] = {"key", "name", "class", "k", "cracking", "length", NULL};
  FittingType type = {.key = text (entry, "key"),
                      .name = text (entry, "name"),
                      .class_ = fitting_class (entry),
                      .k = number (entry, "k"),
                      .cracking_m = number (entry, "cracking"),
                      .length_m = number (entry, "length")};

  check_attributes (entry, allowed);
  added (entry, entry->fine && catalogue_add_fitting (catalogue, &type), type.key);
}

static void
read_pump (Entry *entry, Catalogue *catalogue)
{
  static const char *const allowed[] = {"key",    "name",  "curve",  "watts", "least-speed",
                                        "length", "width", "height", NULL};
  PumpType type = {.key = text (entry, "key"),
                   .name = text (entry, "name"),
                   .curve = text (entry, "curve"),
                   .watts = number (entry, "watts"),
                   .min_speed = number (entry, "least-speed"),
                   .length_m = number (entry, "length"),
                   .width_m = number (entry, "width"),
                   .height_m = number (entry, "height")};

  check_attributes (entry, allowed);
  CurvePoints points; /* the catalogue keeps the curve as text, so it is tried here */
  added (entry, entry->fine && curve_read (type.curve, &points) && catalogue_add_pump (catalogue, &type),
         type.key);
}

static const struct {
  const char *word;
  void (*read) (Entry *entry, Catalogue *catalogue);
} readers[] = {{"pipe", read_pipe}, {"hose", read_hose}, {"fitting", read_fitting}, {"pump", read_pump}};

static gboolean
read_entry (Catalogue *catalogue, const xmlNode *element, const char *name, GError **error)
{
  g_autoptr (GPtrArray) texts = g_ptr_array_new_with_free_func (g_free);
  Entry entry = {.element = element, .name = name, .texts = texts, .error = error, .fine = TRUE};

  for (gsize i = 0; i < G_N_ELEMENTS (readers); i++)
    if (strcmp (readers[i].word, (const char *) element->name) == 0) {
      readers[i].read (&entry, catalogue);
      return entry.fine;
    }
  return files_error_set (error, FILES_ERROR_BAD_STRUCTURE, name, xmlGetLineNo (element),
                          _ ("“%s” is not an entry of a catalogue."), element->name);
}

gboolean
catalogue_read (Catalogue *catalogue, GBytes *bytes, const char *name, GError **error)
{
  g_autoptr (xmlDoc) document = xml_guard_parse (bytes, name, error);

  if (document == NULL)
    return FALSE;
  const xmlNode *root = xmlDocGetRootElement (document);
  if (strcmp ((const char *) root->name, "catalogue") != 0 || root->ns == NULL ||
      strcmp ((const char *) root->ns->href, CATALOGUE_NAMESPACE) != 0)
    return files_error_set (error, FILES_ERROR_NOT_DOWNCOMER, name, xmlGetLineNo (root),
                            _ ("this is another kind of document, not a Downcomer catalogue."));
  for (xmlNode *element = root->children;; element = element->next) {
    xmlNode *stray = NULL;
    element = xml_guard_element (element, &stray);
    if (stray != NULL)
      return files_error_set (error, FILES_ERROR_BAD_STRUCTURE, name, xml_guard_line (stray),
                              _ ("there is text here that belongs to no entry."));
    if (element == NULL)
      return TRUE;
    if (!read_entry (catalogue, element, name, error))
      return FALSE;
  }
}

Catalogue *
catalogue_built_in (void)
{
  static const char *const paths[] = {RESOURCE_PIPES, RESOURCE_FITTINGS, RESOURCE_PUMPS};
  Catalogue *catalogue = catalogue_new ();

  for (gsize i = 0; i < G_N_ELEMENTS (paths); i++) {
    g_autoptr (GBytes) bytes = resource_data (paths[i]);
    g_autoptr (GError) error = NULL;
    if (!catalogue_read (catalogue, bytes, paths[i], &error))
      g_error ("%s", error->message); /* shipped with the program, and read by a test */
  }
  return catalogue;
}
