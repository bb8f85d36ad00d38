/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/common/template.h"

#include "app/downcomer-app.h"

#define RESOURCE_PATH "/io/github/downcomer/Downcomer/"

void
template_set (GtkWidgetClass *klass, const char *file)
{
  g_autofree char *path = g_strconcat (RESOURCE_PATH, file, NULL);
  /* Asked by its own handle: a bundle in a static library is linked only where something refers to it. */
  g_autoptr (GBytes) bytes =
      g_resource_lookup_data (app_get_resource (), path, G_RESOURCE_LOOKUP_FLAGS_NONE, NULL);

  g_assert (bytes != NULL);
  gtk_widget_class_set_template (klass, bytes);
}
