/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "config.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "design/path.h"
#include "files/document-private.h"
#include "files/xml-guard.h"

#define NAMESPACE_STEM "urn:downcomer:"

/* The reading of one document. */
typedef struct {
  const char *name;
  gboolean newer; /* a later version of the same main version: what is unknown here was added by it */
  GError **error;
} Reader;

/* The reading of one option: its draft, and the element of each part for the lines of later errors. */
typedef struct {
  Reader *reader;
  Draft *draft;
  GHashTable *elements; /* key -> xmlNode */
} OptionReader;

static const char *
word_of (const xmlNode *element)
{
  return (const char *) element->name;
}

static gboolean
in_our_namespace (const xmlNode *element)
{
  return element->ns != NULL && strcmp ((const char *) element->ns->href, DOCUMENT_NAMESPACE) == 0;
}

/* Refuses what this program does not know: never dropped, or saving would lose it. */
static gboolean
unknown (const Reader *reader, const xmlNode *node, const char *word)
{
  if (reader->newer)
    return files_error_set (
        reader->error, FILES_ERROR_NEWER_VERSION, reader->name, xmlGetLineNo (node),
        _ ("“%s” was added by a newer version of Downcomer than this one; open it with that."), word);
  return files_error_set (reader->error, FILES_ERROR_BAD_STRUCTURE, reader->name, xmlGetLineNo (node),
                          _ ("Downcomer does not know “%s” in this place; correct or remove it."), word);
}

static gboolean
check_attributes (const Reader *reader, const xmlNode *element, const char *const *allowed)
{
  const char *stray = xml_guard_stray_attribute (element, allowed);

  return stray == NULL || unknown (reader, element, stray);
}

/* Steps to the next element of a list; FALSE when something else stands between. */
static gboolean
next_element (const Reader *reader, xmlNode *from, xmlNode **ret_element)
{
  xmlNode *stray = NULL;
  xmlNode *element = xml_guard_element (from, &stray);

  if (stray != NULL)
    return files_error_set (reader->error, FILES_ERROR_BAD_STRUCTURE, reader->name, xml_guard_line (stray),
                            _ ("there is text here that belongs to no field; put it into one or remove it."));
  if (element != NULL && !in_our_namespace (element))
    return unknown (reader, element, word_of (element));
  *ret_element = element;
  return TRUE;
}

/* The line of what a problem is about: its field, else its part, else the option. */
static long
problem_line (const OptionReader *option, const Problem *problem, const xmlNode *fallback)
{
  const xmlNode *part = g_hash_table_lookup (option->elements, problem->part);

  if (part == NULL)
    return xmlGetLineNo (fallback);
  if (problem->field < N_FIELDS)
    for (const xmlNode *field = part->children; field != NULL; field = field->next)
      if (field->type == XML_ELEMENT_NODE && strcmp (word_of (field), field_info (problem->field)->name) == 0)
        return xmlGetLineNo (field);
  return xmlGetLineNo (part);
}

static gboolean
refused (const OptionReader *option, const Problem *problem, FilesError code, const xmlNode *node,
         const char *found)
{
  g_autofree char *sentence = files_problem_sentence (problem, found);

  return files_error_set (option->reader->error, code, option->reader->name,
                          problem_line (option, problem, node), "%s", sentence);
}

static gboolean
read_field (const OptionReader *option, xmlNode *element, const char *key, FieldId field)
{
  static const char *const none[] = {NULL};
  const Reader *reader = option->reader;
  Problem problem = {.code = PROBLEM_NONE, .field = N_FIELDS};
  g_autofree char *text = xml_guard_text (element);

  if (!check_attributes (reader, element, none))
    return FALSE;
  if (text == NULL)
    return files_error_set (reader->error, FILES_ERROR_BAD_STRUCTURE, reader->name, xmlGetLineNo (element),
                            _ ("field “%s” of “%s” holds elements; it takes a value only."),
                            word_of (element), key);
  if (!path_set_text (option->draft, key, field, text, &problem))
    return refused (option, &problem, FILES_ERROR_BAD_VALUE, element, text);
  return TRUE;
}

static gboolean
read_fields (const OptionReader *option, xmlNode *part, const char *key, PartKind kind)
{
  const Reader *reader = option->reader;
  g_autofree gboolean *seen = g_new0 (gboolean, field_count (kind) + 1);
  xmlNode *element = part->children;

  for (;; element = element->next) {
    FieldId field = N_FIELDS;
    if (!next_element (reader, element, &element))
      return FALSE;
    if (element == NULL)
      return TRUE;
    if (!field_find (kind, word_of (element), &field))
      return unknown (reader, element, word_of (element));
    if (seen[field - field_first (kind)])
      return files_error_set (reader->error, FILES_ERROR_BAD_STRUCTURE, reader->name, xmlGetLineNo (element),
                              _ ("field “%s” of “%s” is given twice; remove one."), word_of (element), key);
    seen[field - field_first (kind)] = TRUE;
    if (!read_field (option, element, key, field))
      return FALSE;
  }
}

/* Adds the part of an element to the draft, without its fields. */
static gboolean
read_part (const OptionReader *option, xmlNode *element, PartKind kind)
{
  static const char *const attributes[] = {"key", "label", "of", NULL};
  const Reader *reader = option->reader;
  Problem problem = {.code = PROBLEM_NONE, .field = N_FIELDS, .kind = kind};
  g_autofree char *key = xml_guard_attribute (element, "key");
  g_autofree char *label = xml_guard_attribute (element, "label");
  g_autofree char *owner = xml_guard_attribute (element, "of");

  if (!check_attributes (reader, element, attributes))
    return FALSE;
  if (key == NULL)
    return files_error_set (reader->error, FILES_ERROR_BAD_STRUCTURE, reader->name, xmlGetLineNo (element),
                            _ ("this %s has no key; give it one, such as key=\"%s-1\"."), word_of (element),
                            word_of (element));
  if (part_kind_owners (kind) != 0 && owner == NULL)
    return files_error_set (reader->error, FILES_ERROR_BAD_STRUCTURE, reader->name, xmlGetLineNo (element),
                            _ ("%s “%s” does not say which part it belongs to; add of=\"…\"."),
                            word_of (element), key);
  if (draft_add (option->draft, kind, key, label, owner, NULL, &problem)) {
    g_hash_table_insert (option->elements, g_steal_pointer (&key), element);
    return TRUE;
  }
  /* Said of this element, although another part may stand under the same key. */
  g_autofree char *sentence = files_problem_sentence (&problem, NULL);
  return files_error_set (reader->error, FILES_ERROR_BAD_STRUCTURE, reader->name, xmlGetLineNo (element),
                          "%s", sentence);
}

/* Visits the parts of an option: first adds them all, then, when every key is known, sets their fields. */
static gboolean
visit_parts (const OptionReader *option, xmlNode *element, gboolean fields)
{
  xmlNode *part = element->children;

  for (;; part = part->next) {
    PartKind kind = N_PART_KINDS;
    if (!next_element (option->reader, part, &part))
      return FALSE;
    if (part == NULL)
      return TRUE;
    if (!part_kind_find (word_of (part), &kind))
      return unknown (option->reader, part, word_of (part));
    g_autofree char *key = xml_guard_attribute (part, "key");
    if (!(fields ? read_fields (option, part, key, kind) : read_part (option, part, kind)))
      return FALSE;
  }
}

static Design *
read_design (Reader *reader, xmlNode *element)
{
  g_autoptr (Draft) draft = draft_new (NULL);
  g_autoptr (GHashTable) elements = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  OptionReader option = {.reader = reader, .draft = draft, .elements = elements};
  Problem problem = {.code = PROBLEM_NONE, .field = N_FIELDS};

  if (!visit_parts (&option, element, FALSE) || !visit_parts (&option, element, TRUE))
    return NULL;
  Design *design = draft_commit (draft, &problem);
  if (design == NULL)
    refused (&option, &problem, FILES_ERROR_BAD_STRUCTURE, element, NULL);
  return design;
}

/* Why an option is not taken into the project. */
static gboolean
option_refused (const Reader *reader, const xmlNode *element, const Project *project, const char *key)
{
  if (project != NULL && project_n_options (project) >= MAX_OPTIONS)
    return files_error_set (reader->error, FILES_ERROR_TOO_LARGE, reader->name, xmlGetLineNo (element),
                            _ ("a project has at most %d options; remove some."), MAX_OPTIONS);
  for (unsigned i = 0; project != NULL && i < project_n_options (project); i++)
    if (strcmp (project_option_key (project, i), key) == 0)
      return files_error_set (reader->error, FILES_ERROR_BAD_STRUCTURE, reader->name, xmlGetLineNo (element),
                              _ ("two options have the key “%s”; give each a key of its own."), key);
  if (key_is_good (key))
    return files_error_set (reader->error, FILES_ERROR_BAD_VALUE, reader->name, xmlGetLineNo (element),
                            /* Translators: a key, and what is wrong with the label */
                            _ ("the label of the option “%s” cannot be used: %s."), key,
                            _ (problem_text (PROBLEM_BAD_TEXT)));
  return files_error_set (reader->error, FILES_ERROR_BAD_STRUCTURE, reader->name, xmlGetLineNo (element),
                          /* Translators: what was found, and what a key is */
                          _ ("the key “%s” of an option cannot be used: %s."), key,
                          _ (problem_text (PROBLEM_BAD_KEY)));
}

/* Adds the option of an element to `project`, which is NULL before the first. */
static gboolean
read_option (Reader *reader, xmlNode *element, Project **project)
{
  static const char *const attributes[] = {"key", "label", NULL};
  g_autofree char *key = xml_guard_attribute (element, "key");
  g_autofree char *label = xml_guard_attribute (element, "label");

  if (strcmp (word_of (element), "option") != 0)
    return unknown (reader, element, word_of (element));
  if (!check_attributes (reader, element, attributes))
    return FALSE;
  if (key == NULL)
    return files_error_set (reader->error, FILES_ERROR_BAD_STRUCTURE, reader->name, xmlGetLineNo (element),
                            _ ("this option has no key; give it one, such as key=\"option-1\"."));
  g_autoptr (Design) design = read_design (reader, element);
  if (design == NULL)
    return FALSE;
  Project *longer = *project == NULL ? project_new_with_key (design, key, label)
                                     : project_with_option (*project, key, label, design);
  if (longer == NULL)
    return option_refused (reader, element, *project, key);
  g_clear_pointer (project, project_unref);
  *project = longer;
  return TRUE;
}

static gboolean
check_root (Reader *reader, const xmlNode *root)
{
  const char *href = root->ns != NULL ? (const char *) root->ns->href : "";
  g_autofree char *version = xml_guard_attribute (root, "version");

  if (strcmp (word_of (root), "project") != 0 || !g_str_has_prefix (href, NAMESPACE_STEM))
    return files_error_set (reader->error, FILES_ERROR_NOT_DOWNCOMER, reader->name, xmlGetLineNo (root),
                            _ ("this is another kind of document, not a Downcomer project."));
  gboolean known = in_our_namespace (root);
  if (!known && g_ascii_isdigit (href[strlen (NAMESPACE_STEM)]))
    return files_error_set (reader->error, FILES_ERROR_NEWER_VERSION, reader->name, xmlGetLineNo (root),
                            _ ("the document was made by a newer version of Downcomer; open it with that."));
  if (!known)
    return files_error_set (reader->error, FILES_ERROR_NOT_DOWNCOMER, reader->name, xmlGetLineNo (root),
                            _ ("this is another kind of document, not a Downcomer project."));
  if (version == NULL ||
      !g_regex_match_simple ("^[1-9][0-9]{0,3}(\\.[0-9]{1,4})?$", version, G_REGEX_DOLLAR_ENDONLY, 0))
    return files_error_set (
        reader->error, FILES_ERROR_BAD_STRUCTURE, reader->name, xmlGetLineNo (root),
        _ ("the version of the document is missing or malformed; it should be version=\"%s\"."),
        DOCUMENT_VERSION);
  reader->newer = strcmp (version, DOCUMENT_VERSION) != 0;
  if (version[0] != '1' || g_ascii_isdigit (version[1]))
    return files_error_set (
        reader->error, FILES_ERROR_NEWER_VERSION, reader->name, xmlGetLineNo (root),
        _ ("the document has version %s and was made by a newer version of Downcomer; open it "
           "with that."),
        version);
  return TRUE;
}

static Project *
activate (const Reader *reader, const xmlNode *root, const Project *project)
{
  g_autofree char *active = xml_guard_attribute (root, "active");

  for (unsigned i = 0; active != NULL && i < project_n_options (project); i++)
    if (strcmp (project_option_key (project, i), active) == 0)
      return project_with_active (project, i);
  files_error_set (reader->error, FILES_ERROR_BAD_STRUCTURE, reader->name, xmlGetLineNo (root),
                   _ ("the project does not name one of its options as active; add active=\"%s\"."),
                   project_option_key (project, 0));
  return NULL;
}

Project *
document_read (const xmlDoc *document, const char *name, GError **error)
{
  static const char *const attributes[] = {"version", "active", NULL};
  Reader reader = {.name = name, .error = error};
  const xmlNode *root = xmlDocGetRootElement (document);
  g_autoptr (Project) project = NULL;

  if (!check_root (&reader, root) || !check_attributes (&reader, root, attributes))
    return NULL;
  for (xmlNode *element = root->children;; element = element->next) {
    if (!next_element (&reader, element, &element))
      return NULL;
    if (element == NULL)
      break;
    if (!read_option (&reader, element, &project))
      return NULL;
  }
  if (project == NULL) {
    files_error_set (error, FILES_ERROR_BAD_STRUCTURE, name, xmlGetLineNo (root),
                     _ ("the project holds no option; open a copy that was saved earlier."));
    return NULL;
  }
  return activate (&reader, root, project);
}
