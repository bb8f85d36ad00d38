/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include <glib/gi18n.h>
#include <locale.h>

#include "app/window/application.h"
#include "cli/cli.h"
#include "config.h"

int
main (int argc, char **argv)
{
  setlocale (LC_ALL, "");
  bindtextdomain (GETTEXT_PACKAGE, LOCALE_DIR);
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);
  return cli_wants (argc, argv) ? cli_run (argc, argv) : application_run_window (argc, argv);
}
