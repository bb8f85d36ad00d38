/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* A canvas in a window on the demo design. Pointer and keys come in by the signals of the canvas's own controllers. */
#pragma once

#include "app/canvas/canvas-private.h"

typedef struct {
  Document *document;
  Selection *selection;
  Theme *theme;
  GtkWidget *window;
  Canvas *canvas;
} Fixture;

/* For g_test_add. Tearing down asserts that canvas, document and selection die. */
void canvas_fixture_set_up (Fixture *f, gconstpointer data);
void canvas_fixture_tear_down (Fixture *f, gconstpointer data);

#define CANVAS_TEST(name, function)                                                                          \
  g_test_add ("/canvas/" name, Fixture, NULL, canvas_fixture_set_up, function, canvas_fixture_tear_down)

/* A number of the design, and the index of a part. */
double number (Fixture *f, const char *key, FieldId field);
int index_of (Fixture *f, const char *key);

GtkEventController *controller (Fixture *f, GType type);

/* Button down; moved by so much since; up. */
void press (Fixture *f, double x, double y);
void move (Fixture *f, double dx, double dy);
void let_go (Fixture *f, double dx, double dy);
void click (Fixture *f, double x, double y);

/* A key down and up; whether the canvas took it. */
gboolean key (Fixture *f, guint keyval, GdkModifierType state);

/* Presses the handle of a part that moves a field, in the middle. */
void press_handle (Fixture *f, const char *part, FieldId field);

/* Metres in logical pixels. */
double pixels (Fixture *f, double metres);

/* Draws the canvas as the toolkit would, and returns its base drawing, which belongs to it. */
GskRenderNode *draw (Fixture *f);
