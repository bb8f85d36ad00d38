/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* A new design from the size of tank and stand alone. While sizes are typed one sentence says what would be proposed, or
 * which limit forbids it. Signal "proposed" (pointer: Design *) when the proposal is taken. Actions: new.propose,
 * new.cancel. */
#pragma once

#include <gtk/gtk.h>

#include "solver/proposal.h"
#include "units/format.h"

typedef struct _Window Window;
typedef struct _Application Application;

typedef enum {
  NEW_TANK_LENGTH,
  NEW_TANK_WIDTH,
  NEW_TANK_HEIGHT,
  NEW_STAND_LENGTH,
  NEW_STAND_WIDTH,
  NEW_STAND_HEIGHT,
  NEW_DOOR_WIDTH,
  NEW_DOOR_HEIGHT,
  NEW_TURNOVER,
  N_NEW_ENTRIES
} NewEntry;

#define DOWNCOMER_TYPE_NEW_DIALOG (new_dialog_get_type ())
G_DECLARE_FINAL_TYPE (NewDialog, new_dialog, DOWNCOMER, NEW_DIALOG, GtkWindow)

/* `signs` gives the signs of the locale. */
GtkWidget *new_dialog_new (Catalogue *catalogue, const ProposalRequest *request, const NumberStyle *signs);

GtkWidget *new_dialog_get_entry (NewDialog *dialog, NewEntry entry);
void new_dialog_set_us (NewDialog *dialog, gboolean us);
ProposalRequest new_dialog_get_request (NewDialog *dialog);

/* The sentence as it stands, and whether it is still being worked out. */
const char *new_dialog_get_sentence (NewDialog *dialog);
gboolean new_dialog_is_busy (NewDialog *dialog);

/* Opens the dialog over a window. What is proposed replaces an unused design there, else it opens a window of its own. */
void new_dialog_present (Window *window, Application *application);
