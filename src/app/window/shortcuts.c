/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/window/shortcuts.h"

static const Shortcut shortcuts[] = {
    {"app.quit", {"<Control>q", NULL}},
    {"win.new", {"<Control>n", NULL}},
    {"win.open", {"<Control>o", NULL}},
    {"win.save", {"<Control>s", NULL}},
    {"win.save-as", {"<Control><Shift>s", NULL}},
    {"win.export-sheet", {"<Control>e", NULL}},
    {"win.print", {"<Control>p", NULL}},
    {"win.undo", {"<Control>z", NULL}},
    {"win.redo", {"<Control><Shift>z", "<Control>y", NULL}},
    {"win.close", {"<Control>w", NULL}},
    {"win.zoom-in", {"<Control>plus", "<Control>equal", "<Control>KP_Add", NULL}},
    {"win.zoom-out", {"<Control>minus", "<Control>KP_Subtract", NULL}},
    {"win.zoom-fit", {"<Control>0", "<Control>KP_0", NULL}},
    {"win.power-off", {"<Control>l", NULL}},
    {"win.page::drawing", {"<Control>1", NULL}},
    {"win.page::pumps", {"<Control>2", NULL}},
    {"win.page::rehearsals", {"<Control>3", NULL}},
    {"win.view::front", {"F2", NULL}},
    {"win.view::end", {"F3", NULL}},
    {"win.view::plan", {"F4", NULL}},
    {"win.view::isometric", {"F5", NULL}},
    {"win.view::all", {"F7", NULL}},
    {"win.explain", {"<Control>i", NULL}},
    {"win.next-finding", {"F8", NULL}},
    {"win.show-help-overlay", {"<Control>question", "F1", NULL}},
};

const Shortcut *
shortcut_nth (guint n)
{
  return n < G_N_ELEMENTS (shortcuts) ? &shortcuts[n] : NULL;
}
