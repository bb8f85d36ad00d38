/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The built-in catalogues against the standards, and what a catalogue may not hold. */
#include <math.h>

#include "design/curve.h"
#include "design/field.h"
#include "files/catalogue-file.h"
#include "tests/files/fixture.h"

/* Figures from outside: the library fluids 1.0.22, nearest_pipe (NPS, schedule "40D1785" or "80D1785") for ASTM D1785;
 * EN ISO 1452-2:2009, Table 2; sockets ASTM D2466 in inches; those of D2467 and ISO 727-1 are from memory. Hoses are
 * sold by bore. 0 is not checked. */
static const struct {
  const char *key;
  double inside_m, outside_m, socket_m, nominal_in;
} known_pipes[] = {
    {"sch40-1/2", 0.0157988, 0.021336, 0.0174752, 0.5},
    {"sch40-3/4", 0.0209296, 0.02667, 0.0182626, 0.75},
    {"sch40-1", 0.0266446, 0.033401, 0, 1},
    {"sch40-1-1/4", 0.035052, 0.042164, 0.0238252, 1.25},
    {"sch40-1-1/2", 0.040894, 0.04826, 0.0277876, 1.5},
    {"sch40-2", 0.0525018, 0.060325, 0.0293624, 2},
    {"sch40-3", 0.0779272, 0.0889, 0.047625, 3},
    {"sch40-4", 0.1022604, 0.1143, 0.0508, 4},
    {"sch80-1/2", 0.0138684, 0.021336, 0.022225, 0.5},
    {"sch80-1", 0.0243078, 0.033401, 0.028575, 1},
    {"sch80-1-1/4", 0.0324612, 0.042164, 0.03175, 1.25},
    {"sch80-1-1/2", 0.0381, 0.04826, 0.034925, 1.5},
    {"sch80-2-1/2", 0.0590042, 0.073025, 0.04445, 2.5},
    {"sch80-3", 0.07366, 0.0889, 0.047625, 3},
    {"sch80-4", 0.0971804, 0.1143, 0.05715, 4},
    {"metric-20", 0.017, 0.02, 0.016, 0.5},
    {"metric-25", 0, 0.025, 0.0185, 0.75},
    {"metric-32", 0.0272, 0.032, 0.022, 1},
    {"metric-40", 0.034, 0.04, 0.026, 1.25},
    {"metric-50", 0.0426, 0.05, 0.031, 1.5},
    {"metric-63", 0.0536, 0.063, 0.0375, 2},
    {"metric-75", 0.0638, 0.075, 0.0435, 2.5},
    {"metric-90", 0.0766, 0.09, 0.051, 3},
    {"metric-110", 0.0938, 0.11, 0, 4},
    {"metric-40-sdr21", 0.0362, 0.04, 0, 0},
    {"metric-50-sdr21", 0.0452, 0.05, 0, 0},
    {"metric-63-sdr21", 0.057, 0.063, 0, 0},
    {"metric-90-sdr21", 0.0814, 0.09, 0, 0},
    {"metric-110-sdr21", 0.0994, 0.11, 0, 0},
    {"hose-16", 0.016, 0, 0, 0},
    {"hose-25", 0.025, 0, 0, 0},
    {"hose-3/4-in", 0.01905, 0, 0, 0},
};

static void
assert_near (const char *key, double got, double wanted)
{
  if (wanted > 0.0 && !(fabs (got - wanted) < 2e-6))
    g_error ("%s: %g, not %g", key, got, wanted);
}

static void
test_pipes (void)
{
  g_autoptr (Catalogue) catalogue = catalogue_built_in ();

  for (guint i = 0; i < G_N_ELEMENTS (known_pipes); i++) {
    const PipeSize *size = catalogue_find_pipe (catalogue, known_pipes[i].key);
    if (size == NULL)
      g_error ("there is no %s", known_pipes[i].key);
    assert_near (size->key, size->inside_m, known_pipes[i].inside_m);
    assert_near (size->key, size->outside_m, known_pipes[i].outside_m);
    assert_near (size->key, size->socket_m, known_pipes[i].socket_m);
    assert_near (size->key, size->nominal_in, known_pipes[i].nominal_in);
  }
}

/* What holds for every size, known or not. */
static void
test_every_pipe (void)
{
  g_autoptr (Catalogue) catalogue = catalogue_built_in ();

  for (guint i = 0; i < catalogue_n_pipes (catalogue); i++) {
    const PipeSize *size = catalogue_pipe (catalogue, i);
    double wall_m = (size->outside_m - size->inside_m) / 2;
    g_assert_true (size->hose == g_str_has_prefix (size->key, "hose-"));
    g_assert_true (size->hose == (size->socket_m == 0.0));
    g_assert_true (size->hose == (*size->standard == '\0'));
    g_assert_true (wall_m >= 0.0014 && wall_m <= 0.01);
    g_assert_true (size->socket_m == 0.0 || size->socket_m > 0.35 * size->outside_m);
    g_assert_true (size->nominal_in >= 0.5 && size->nominal_in <= 4.0);
    g_assert_true (strlen (size->name) > 0);
  }
}

/* A default of the field table that named nothing would leave a new design without pipe. */
static void
test_defaults (void)
{
  g_autoptr (Catalogue) catalogue = catalogue_built_in ();

  for (FieldId field = 0; field < N_FIELDS; field++) {
    const FieldInfo *info = field_info (field);
    if (info->type == FIELD_PIPE)
      g_assert_nonnull (catalogue_find_pipe (catalogue, info->fallback_text));
    if (info->type == FIELD_PART)
      g_assert_nonnull (catalogue_find_fitting (catalogue, info->fallback_text));
  }
}

static void
test_fittings (void)
{
  static const struct {
    const char *key;
    FittingClass class_;
    double k, cracking_m;
  } known[] = {
      {"union", FITTING_CLASS_UNION, 0.08, 0},        {"gate-valve", FITTING_CLASS_GATE_VALVE, 0, 0},
      {"ball-valve", FITTING_CLASS_BALL_VALVE, 0, 0}, {"check-valve", FITTING_CLASS_CHECK_VALVE, 2.5, 0.05},
      {"strainer", FITTING_CLASS_STRAINER, 1.5, 0},   {"strainer-half", FITTING_CLASS_STRAINER, 3, 0},
      {"bulkhead", FITTING_CLASS_BULKHEAD, 0.1, 0},   {"reducer", FITTING_CLASS_REDUCER, 0.2, 0},
      {"tee-run", FITTING_CLASS_TEE_RUN, 0, 0},       {"diaphragm-valve", FITTING_CLASS_OTHER, 2.3, 0},
  };
  g_autoptr (Catalogue) catalogue = catalogue_built_in ();

  for (guint i = 0; i < G_N_ELEMENTS (known); i++) {
    const FittingType *type = catalogue_find_fitting (catalogue, known[i].key);
    g_assert_nonnull (type);
    g_assert_cmpint (type->class_, ==, known[i].class_);
    g_assert_cmpfloat (type->k, ==, known[i].k);
    g_assert_cmpfloat (type->cracking_m, ==, known[i].cracking_m);
  }
  for (guint i = 0; i < catalogue_n_fittings (catalogue); i++) {
    const FittingType *type = catalogue_fitting (catalogue, i);
    g_assert_true (type->length_m > 0.0 && type->length_m < 0.2);
    g_assert_true ((type->cracking_m > 0.0) == (type->class_ == FITTING_CLASS_CHECK_VALVE));
    /* Crane knows these by class and size; the others need a coefficient of their own. */
    g_assert_true (type->k > 0.0 || type->class_ == FITTING_CLASS_GATE_VALVE ||
                   type->class_ == FITTING_CLASS_BALL_VALVE || type->class_ == FITTING_CLASS_TEE_RUN);
  }
}

/* Best efficiency of a pump from wire to water on the segments between its points, with seawater of 1,025 kg/m3. */
static double
best_efficiency (const PumpType *pump, const CurvePoints *curve)
{
  double best_w = 0.0;

  for (unsigned i = 1; i < curve->n; i++)
    for (int step = 0; step <= 10; step++) {
      double share = step / 10.0;
      double flow_m3s = curve->flow_m3s[i - 1] + share * (curve->flow_m3s[i] - curve->flow_m3s[i - 1]);
      double head_m = curve->head_m[i - 1] + share * (curve->head_m[i] - curve->head_m[i - 1]);
      best_w = fmax (best_w, 1025.0 * 9.80665 * flow_m3s * head_m);
    }
  return best_w / pump->watts;
}

static void
test_pumps (void)
{
  g_autoptr (Catalogue) catalogue = catalogue_built_in ();
  double least_w = G_MAXDOUBLE;
  double most_w = 0.0;
  guint variable = 0;

  g_assert_cmpuint (catalogue_n_pumps (catalogue), >=, 10);
  for (guint i = 0; i < catalogue_n_pumps (catalogue); i++) {
    const PumpType *pump = catalogue_pump (catalogue, i);
    CurvePoints curve;
    g_assert_true (curve_read (pump->curve, &curve));
    g_autofree char *canonical = curve_canonical (pump->curve);
    g_assert_cmpstr (pump->curve, ==, canonical);
    g_assert_cmpfloat (curve.flow_m3s[0], ==, 0.0);
    g_assert_true (curve.head_m[0] >= 1.5 && curve.head_m[0] <= 7.0);
    g_assert_true (curve.flow_m3s[curve.n - 1] >= 600 / 3.6e6 &&
                   curve.flow_m3s[curve.n - 1] <= 20100 / 3.6e6);
    double efficiency = best_efficiency (pump, &curve);
    if (!(efficiency > 0.10 && efficiency < 0.45))
      g_error ("%s: efficiency %g", pump->key, efficiency);
    g_autofree char *watts =
        g_strdup_printf (", %g W, %s speed", pump->watts, pump->min_speed < 1.0 ? "variable" : "fixed");
    g_assert_true (g_str_has_prefix (pump->name, "Pump ") && g_str_has_suffix (pump->name, watts));
    variable += pump->min_speed < 1.0;
    least_w = fmin (least_w, pump->watts);
    most_w = fmax (most_w, pump->watts);
  }
  g_assert_cmpfloat (least_w, ==, 12.0);
  g_assert_cmpfloat (most_w, ==, 300.0);
  g_assert_true (variable >= 3 && variable < catalogue_n_pumps (catalogue));
}

#define HEAD "<catalogue xmlns='urn:downcomer:catalogue:1'>\n"
#define PIPE                                                                                                 \
  "<pipe key='a' name='A' standard='S' outside='0.03' inside='0.025' nominal-in='1' socket='0.02'/>"

static void
test_bad (void)
{
  static const struct {
    const char *text, *sentence;
  } cases[] = {
      {"<catalogue/>", "c.xml, line 1: this is another kind of document, not a Downcomer catalogue."},
      {HEAD "<wheel/></catalogue>", "c.xml, line 2: “wheel” is not an entry of a catalogue."},
      {HEAD "text</catalogue>", "c.xml, line 2: there is text here that belongs to no entry."},
      {HEAD "<hose key='a' name='A' outside='0.03' inside='0.025'/></catalogue>",
       "c.xml, line 2: this hose lacks the attribute “nominal-in”."},
      {HEAD "<hose key='a' name='A' outside='30 mm' inside='0.025' nominal-in='1'/></catalogue>",
       "c.xml, line 2: “outside” cannot be “30 mm”: it takes a number with a decimal point."},
      {HEAD "<hose key='a' name='A' outside='0.02' inside='0.025' nominal-in='1'/></catalogue>",
       "c.xml, line 2: “a” cannot be added: its key is taken or one of its figures is impossible."},
      {HEAD PIPE "\n" PIPE "</catalogue>",
       "c.xml, line 3: “a” cannot be added: its key is taken or one of its figures is impossible."},
      {HEAD "<fitting key='a' name='A' class='wheel' k='1' cracking='0' length='0.1'/></catalogue>",
       "c.xml, line 2: “wheel” is not a class of fittings."},
      {HEAD
       "<fitting key='a' name='A' class='union' k='1' cracking='0' length='0.1' colour='red'/></catalogue>",
       "c.xml, line 2: Downcomer does not know the attribute “colour” here."},
      {HEAD "<pump key='a' name='A' curve='0:1 0.001:2' watts='1' least-speed='1' length='0' width='0' "
            "height='0'/></catalogue>",
       "c.xml, line 2: “a” cannot be added: its key is taken or one of its figures is impossible."},
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autoptr (Catalogue) catalogue = catalogue_new ();
    g_autoptr (GBytes) bytes = g_bytes_new (cases[i].text, strlen (cases[i].text));
    g_autoptr (GError) error = NULL;
    g_assert_false (catalogue_read (catalogue, bytes, "c.xml", &error));
    g_assert_cmpstr (error->message, ==, cases[i].sentence);
  }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/catalogue/pipes", test_pipes);
  g_test_add_func ("/catalogue/every-pipe", test_every_pipe);
  g_test_add_func ("/catalogue/defaults", test_defaults);
  g_test_add_func ("/catalogue/fittings", test_fittings);
  g_test_add_func ("/catalogue/pumps", test_pumps);
  g_test_add_func ("/catalogue/bad", test_bad);
  return g_test_run ();
}
