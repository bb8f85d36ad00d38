/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/common/theme.h"

#include <string.h>

#include "app/downcomer-app.h"

#define RESOURCE_PATH "/io/github/downcomer/Downcomer/"
#define PORTAL_NAME   "org.freedesktop.portal.Desktop"
#define PORTAL_PATH   "/org/freedesktop/portal/desktop"
#define PORTAL_IFACE  "org.freedesktop.portal.Settings"
#define NAMESPACE     "org.freedesktop.appearance"
#define COLOR_SCHEME  "color-scheme"

struct _Theme {
  GObject parent_instance;

  GdkDisplay *display;
  GtkSettings *settings;
  GtkCssProvider *provider, *ground_provider;
  GDBusConnection *bus;
  GCancellable *cancellable;
  guint subscription;
  Appearance appearance;
  gboolean desktop_known, desktop_dark; /* what the portal said, if it did */
  gboolean start_dark;                  /* what the toolkit was set to at the start */
  ThemeGround ground;
};

G_DEFINE_FINAL_TYPE (Theme, theme, G_TYPE_OBJECT)

enum { SIGNAL_CHANGED, N_SIGNALS };

static guint signals[N_SIGNALS];

static const char *const sheets[] = {[GROUND_LIGHT] = RESOURCE_PATH "style-light.css",
                                     [GROUND_DARK] = RESOURCE_PATH "style-dark.css",
                                     [GROUND_CONTRAST] = RESOURCE_PATH "style-contrast.css"};

static gboolean
is_high_contrast (Theme *self)
{
  g_autofree char *name = NULL;

  g_object_get (self->settings, "gtk-theme-name", &name, NULL);
  return name != NULL && (g_str_has_suffix (name, "-hc") || strstr (name, "HighContrast") != NULL);
}

static gboolean
wants_dark (Theme *self)
{
  if (self->appearance != APPEARANCE_SYSTEM)
    return self->appearance == APPEARANCE_DARK;
  return self->desktop_known ? self->desktop_dark : self->start_dark;
}

static void
apply (Theme *self)
{
  const gboolean dark = wants_dark (self);
  const ThemeGround ground = is_high_contrast (self) ? GROUND_CONTRAST : dark ? GROUND_DARK : GROUND_LIGHT;

  gboolean dark_now = FALSE;

  /* Set only where it differs: the toolkit reads its whole theme again each time, also for the same value. */
  g_object_get (self->settings, "gtk-application-prefer-dark-theme", &dark_now, NULL);
  if (dark != dark_now)
    g_object_set (self->settings, "gtk-application-prefer-dark-theme", dark, NULL);
  if (ground == self->ground && self->ground_provider != NULL)
    return;
  self->ground = ground;
  if (self->ground_provider != NULL)
    gtk_style_context_remove_provider_for_display (self->display, GTK_STYLE_PROVIDER (self->ground_provider));
  g_clear_object (&self->ground_provider);
  self->ground_provider = gtk_css_provider_new ();
  gtk_css_provider_load_from_resource (self->ground_provider, sheets[ground]);
  gtk_style_context_add_provider_for_display (self->display, GTK_STYLE_PROVIDER (self->ground_provider),
                                              GTK_STYLE_PROVIDER_PRIORITY_APPLICATION);
  g_signal_emit (self, signals[SIGNAL_CHANGED], 0);
}

static void
take_scheme (Theme *self, GVariant *value)
{
  g_autoptr (GVariant) inner = g_variant_ref (value);

  while (g_variant_is_of_type (inner, G_VARIANT_TYPE_VARIANT)) {
    GVariant *unboxed = g_variant_get_variant (inner);

    g_variant_unref (inner);
    inner = unboxed;
  }
  if (!g_variant_is_of_type (inner, G_VARIANT_TYPE_UINT32) || g_variant_get_uint32 (inner) > 2)
    return;
  self->desktop_known = g_variant_get_uint32 (inner) != 0; /* 0: no preference */
  self->desktop_dark = g_variant_get_uint32 (inner) == 1;
  apply (self);
}

static void
on_read (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (GVariant) reply = g_dbus_connection_call_finish (G_DBUS_CONNECTION (source), result, NULL);

  /* No portal is no fault: the toolkit's own setting stays. A cancelled call comes after the theme is gone. */
  if (reply != NULL) {
    g_autoptr (GVariant) value = g_variant_get_child_value (reply, 0);

    take_scheme (DOWNCOMER_THEME (data), value);
  }
}

static void
on_setting_changed (GDBusConnection *bus, const char *sender, const char *path, const char *interface,
                    const char *signal, GVariant *parameters, gpointer data)
{
  const char *name, *key;
  g_autoptr (GVariant) value = NULL;

  g_variant_get (parameters, "(&s&sv)", &name, &key, &value);
  if (g_str_equal (name, NAMESPACE) && g_str_equal (key, COLOR_SCHEME))
    take_scheme (DOWNCOMER_THEME (data), value);
}

static void
on_bus (GObject *source, GAsyncResult *result, gpointer data)
{
  GDBusConnection *bus = g_bus_get_finish (result, NULL);
  Theme *self;

  if (bus == NULL)
    return;
  self = DOWNCOMER_THEME (data);
  self->bus = bus;
  self->subscription = g_dbus_connection_signal_subscribe (bus, PORTAL_NAME, PORTAL_IFACE, "SettingChanged",
                                                           PORTAL_PATH, NAMESPACE, G_DBUS_SIGNAL_FLAGS_NONE,
                                                           on_setting_changed, self, NULL);
  g_dbus_connection_call (bus, PORTAL_NAME, PORTAL_PATH, PORTAL_IFACE, "Read",
                          g_variant_new ("(ss)", NAMESPACE, COLOR_SCHEME), G_VARIANT_TYPE ("(v)"),
                          G_DBUS_CALL_FLAGS_NO_AUTO_START, -1, self->cancellable, on_read, self);
}

static void
theme_dispose (GObject *object)
{
  Theme *self = DOWNCOMER_THEME (object);

  g_cancellable_cancel (self->cancellable);
  if (self->subscription != 0)
    g_dbus_connection_signal_unsubscribe (self->bus, self->subscription);
  self->subscription = 0;
  g_clear_object (&self->bus);
  g_clear_object (&self->cancellable);
  if (self->settings != NULL)
    g_signal_handlers_disconnect_by_data (self->settings, self);
  if (self->provider != NULL)
    gtk_style_context_remove_provider_for_display (self->display, GTK_STYLE_PROVIDER (self->provider));
  if (self->ground_provider != NULL)
    gtk_style_context_remove_provider_for_display (self->display, GTK_STYLE_PROVIDER (self->ground_provider));
  g_clear_object (&self->provider);
  g_clear_object (&self->ground_provider);
  self->settings = NULL;
  G_OBJECT_CLASS (theme_parent_class)->dispose (object);
}

static void
theme_class_init (ThemeClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = theme_dispose;
  signals[SIGNAL_CHANGED] = g_signal_new ("changed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL,
                                          NULL, NULL, G_TYPE_NONE, 0);
}

static void
theme_init (Theme *self)
{
  self->cancellable = g_cancellable_new ();
}

Theme *
theme_new (GdkDisplay *display)
{
  Theme *self = g_object_new (DOWNCOMER_TYPE_THEME, NULL);

  /* Refers to the bundle with the style sheets, so that it is linked. */
  g_assert (app_get_resource () != NULL);
  self->display = display;
  self->settings = gtk_settings_get_for_display (display);
  g_object_get (self->settings, "gtk-application-prefer-dark-theme", &self->start_dark, NULL);
  g_signal_connect_swapped (self->settings, "notify::gtk-theme-name", G_CALLBACK (apply), self);
  self->provider = gtk_css_provider_new ();
  gtk_css_provider_load_from_resource (self->provider, RESOURCE_PATH "style.css");
  gtk_style_context_add_provider_for_display (display, GTK_STYLE_PROVIDER (self->provider),
                                              GTK_STYLE_PROVIDER_PRIORITY_APPLICATION);
  apply (self);
  g_bus_get (G_BUS_TYPE_SESSION, self->cancellable, on_bus, self);
  return self;
}

ThemeGround
theme_get_ground (Theme *theme)
{
  return theme->ground;
}

const Palette *
theme_get_palette (Theme *theme)
{
  static const PaletteKind kinds[] = {[GROUND_LIGHT] = PALETTE_LIGHT,
                                      [GROUND_DARK] = PALETTE_DARK,
                                      [GROUND_CONTRAST] = PALETTE_HIGH_CONTRAST};

  return palette_get (theme != NULL ? kinds[theme->ground] : PALETTE_LIGHT);
}

void
theme_set_appearance (Theme *theme, Appearance appearance)
{
  theme->appearance = appearance;
  apply (theme);
}
