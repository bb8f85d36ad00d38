/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The inside of the canvas: canvas.c (widget, what it shows, snapshot), canvas-view.c (zoom, pan, fit), canvas-children.c
 * (parts as children), canvas-pointer.c (mouse, touch, wheel), canvas-keys.c (keyboard), canvas-drag.c (a handle in hand)
 * with canvas-nudge.c (arrows) and canvas-entry.c (typed numbers), canvas-choose.c (several parts), canvas-edit.c,
 * canvas-sizes.c and canvas-menu.c (adding, removing, other pipes), canvas-measure.c. */
#pragma once

#include "app/canvas/canvas-part.h"
#include "app/canvas/canvas.h"
#include "drawing/painter.h"

/* Logical pixels. */
#define PICK_TOLERANCE 5.0
#define HANDLE_REACH   9.0
#define TOUCH_REACH    22.0

/* What the pointer is doing since its button went down. */
typedef enum { CANVAS_IDLE, CANVAS_PRESSED, CANVAS_PANNING, CANVAS_BANDING, CANVAS_DRAGGING } CanvasActivity;

/* What the keys held during a drag ask for. */
typedef enum {
  CANVAS_HOLD_NONE = 0,
  CANVAS_HOLD_FREE = 1 << 0,    /* no snapping */
  CANVAS_HOLD_STRAIGHT = 1 << 1 /* along one axis */
} CanvasHold;

/* A handle in hand. `at` are the values of the leading moves (canvas-moves.h); NAN was not touched. */
typedef struct {
  Design *base; /* as it was before; NULL while nothing is dragged */
  char *key;    /* of the part */
  SceneHandle handle;
  unsigned number; /* of the handle among those of its part */
  GArray *moves;   /* of CanvasMove */
  double at[N_SCENE_AXES];
  gboolean engaged[N_SCENE_AXES];
  GArray *targets[N_SCENE_AXES]; /* coordinates to snap to; of double, metres */
  GArray *edges[N_SCENE_AXES]; /* what snaps to them: the handle and edges that go with it, from the handle */
  PainterGuide guides[N_SCENE_AXES];
  unsigned n_guides;
  gboolean made; /* the part was made for this drag */
} CanvasDrag;

/* Two points whose distance is measured. */
typedef struct {
  gboolean on;
  unsigned n; /* points set; with one the other follows the pointer */
  ScenePoint points[2];
  ScenePoint hover;
} CanvasMeasure;

/* How much of a projection was seen when it was looked at last. */
typedef struct {
  gboolean known, fitted;
  double origin_x, origin_y, scale;
  SceneBox outline;
} CanvasPlace;

struct _Canvas {
  GtkWidget parent_instance;

  Document *document;
  Selection *selection;
  Theme *theme;

  TextEngine *engine;
  SceneProjection projection;
  CanvasPlace places[N_SCENE_PROJECTIONS]; /* of those that were looked at before */
  Scene *scene;
  SceneBox outline; /* of the scene that the view was fitted to */
  DrawingView view;
  gboolean fitted;

  /* The base drawing as one node, and what it was drawn of. */
  GskRenderNode *base;
  DrawingView base_view;
  Layout *layout;
  guint base_serial;
  ThemeGround base_ground;
  GArray *marks;   /* LayoutMark of the findings in it, in base_view */
  gboolean moving; /* panned a moment ago: the node is larger than the view, and moved with it */
  guint settle_source;

  GHashTable *parts; /* key -> CanvasPart, the children */
  unsigned n_told;   /* parts of the design that they were told of last */
  gboolean untold;   /* only the selected one has been told since */
  GtkWidget *note;   /* label beside the pointer or handle while a value changes */
  double note_x, note_y;
  guint tell_source; /* takes back what the note says */

  GtkWidget *entry; /* entries beside the handle in hand, made when first asked for */
  GtkWidget *entries[N_SCENE_AXES], *entry_problem;
  double entry_x, entry_y;
  gboolean entry_closing, entry_refused;

  GtkWidget *menu; /* made when first asked for */
  double menu_x, menu_y;
  gboolean menu_set; /* it was asked for at a place */

  CanvasMeasure measure;

  double pointer_x, pointer_y;
  gboolean pointer_inside;
  int hovered;
  double picked_x, picked_y; /* the last place asked about, and its answer */
  int picked;

  CanvasActivity activity;
  gboolean by_touch;
  double press_x, press_y, pan_x, pan_y, band_dx, band_dy;
  gboolean press_twice; /* the second of a double click */
  int press_part;       /* whose handle is under the press, or -1 */
  unsigned press_handle;
  double click_x, click_y; /* of the last click, to walk down a pile */
  double pinch_scale;
  GtkGesture *drag_gesture;

  CanvasDrag drag;
  char *held_key; /* of the part whose handle was in hand last, and which it was */
  unsigned held_number;
  guint nudge_source; /* ends the undo step of a row of nudges */
  gboolean space_down, space_used;

  guint pulse_tick;
  gint64 pulse_start;
  double pulse; /* 1 at the start of the pulse, 0 at its end */
};

/* canvas.c */
void canvas_build (Canvas *self); /* the scene anew */
const Palette *canvas_palette (Canvas *self);
int canvas_selected (Canvas *self);                   /* index of the selected part, or -1 */
const Part *canvas_part_of (Canvas *self, int index); /* of the design shown, or NULL */
void canvas_edit (Canvas *self, const char *key);
void canvas_show_note (Canvas *self, double x, double y, const char *markup);
void canvas_hide_note (Canvas *self);

/* canvas-view.c: moves of the view; all end in canvas_view_changed. */
void canvas_view_changed (Canvas *self);
void canvas_view_resized (Canvas *self, int width, int height);
void canvas_view_follow (Canvas *self); /* after another scene */
void canvas_pan (Canvas *self, double dx, double dy);
void canvas_zoom_at (Canvas *self, double x, double y, double factor);
void canvas_settle (Canvas *self); /* after a motion: the drawing as it is at rest */
void canvas_settle_later (Canvas *self);
void canvas_reveal (Canvas *self, int part);
void canvas_pulse (Canvas *self);
void canvas_stop_pulse (Canvas *self);

/* canvas-children.c: places of parts, and the children that stand for them. */
gboolean canvas_part_box (Canvas *self, int part, graphene_rect_t *ret_box); /* logical pixels */
int canvas_pick (Canvas *self, double x, double y);                          /* topmost part, or -1 */
void canvas_sync_children (Canvas *self);
void canvas_sync_moving (Canvas *self); /* tells the selected one alone, while a value is under a hand */
void canvas_sync_selected (Canvas *self);
void canvas_place_children (Canvas *self);
CanvasPart *canvas_child (Canvas *self, const char *key);
/* The child after `from` (before it with step -1) in the order of flow; NULL for `from` is outside, at either end. */
CanvasPart *canvas_next_child (Canvas *self, CanvasPart *from, int step);

/* canvas-handles.c: whose handles are shown, and where; the painter draws them. */
unsigned canvas_handle_parts (Canvas *self, int parts[], unsigned max);
gboolean canvas_handle_at (Canvas *self, double x, double y, int *ret_part, unsigned *ret_number);
/* Remembers the handle that was in hand last: arrows and typed numbers are meant for it. NULL forgets it. */
void canvas_hold (Canvas *self, const char *key, unsigned number);
gboolean canvas_is_held (Canvas *self, int part, unsigned number);
/* Where a run passes nearest to a place: metres from its start, and how far away (logical pixels, may be NULL). */
gboolean canvas_station_at (Canvas *self, const Design *design, const Part *run, double x, double y,
                            double *ret_station, double *ret_distance);

/* canvas-drag.c */
gboolean canvas_drag_begin (Canvas *self, int part, unsigned number);
void canvas_drag_to (Canvas *self, double dx, double dy, CanvasHold hold);
/* Sets the value of an axis exactly; FALSE with the problem, and nothing changed, where it is refused. */
gboolean canvas_drag_set (Canvas *self, SceneAxis axis, double value, Problem *problem);
void canvas_drag_end (Canvas *self);
void canvas_drag_cancel (Canvas *self);
void canvas_drag_drop (Canvas *self); /* forgets it: the document has gone elsewhere */
gboolean canvas_dragging (Canvas *self);

/* canvas-nudge.c */
gboolean canvas_nudge (Canvas *self, SceneAxis axis, int direction, gboolean far);
void canvas_nudge_end (Canvas *self);
gboolean canvas_can_nudge (Canvas *self);

/* canvas-entry.c: exact values of the handle in hand, or of the one held last. `text` is what was typed, NULL: the value. */
gboolean canvas_entry_open (Canvas *self, const char *text);
gboolean canvas_entry_is_open (Canvas *self);
gboolean canvas_entry_finish (Canvas *self); /* FALSE, and still open, where what was typed is refused */
void canvas_entry_cancel (Canvas *self);

/* canvas-choose.c */
void canvas_band_to (Canvas *self, double dx, double dy);
void canvas_band_end (Canvas *self);
void canvas_band_snapshot (Canvas *self, GtkSnapshot *snapshot);
void canvas_choose_all (Canvas *self);
void canvas_choose_left (Canvas *self);

/* canvas-edit.c: each is one step of the history; FALSE where it was refused, which has been told then. */
gboolean canvas_has_run (Canvas *self);
gboolean canvas_insert (Canvas *self, const char *type); /* of the catalogue, or "valve" */
gboolean canvas_insert_corner (Canvas *self);
gboolean canvas_insert_tee (Canvas *self);
void canvas_add (Canvas *self, unsigned n); /* the n-th addition, to the chosen part or to the design */
gboolean canvas_delete (Canvas *self);
void canvas_tell (Canvas *self, const char *sentence);
void canvas_untell (Canvas *self);

/* Says something beside the pointer, or the part, for a while; canvas_tell does so as a refusal. */
void canvas_remark (Canvas *self, const char *markup);

/* canvas-sizes.c: the pipe of the run in work. */
gboolean canvas_is_size (const SceneHandle *handle); /* it is the wall of a pipe */
gboolean canvas_size_step (Canvas *self, int steps);
void canvas_size_drag (Canvas *self, double dx, double dy);
char *canvas_size_words (Canvas *self, const char *key); /* the name of a size; newly allocated */
GMenuModel *canvas_size_menu (Canvas *self);             /* NULL where there is nothing to choose */

/* canvas-clipboard.c: likewise; what a paste or duplication made is chosen then. */
gboolean canvas_copy (Canvas *self);
gboolean canvas_cut (Canvas *self);
gboolean canvas_paste (Canvas *self);
gboolean canvas_duplicate (Canvas *self);

/* canvas-menu.c */
void canvas_install_actions (GtkWidgetClass *klass);
void canvas_menu_popup (Canvas *self, double x, double y);
void canvas_menu_popup_at_part (Canvas *self);

/* canvas-measure.c */
gboolean canvas_measuring (Canvas *self);
void canvas_measure_begin (Canvas *self);
void canvas_measure_end (Canvas *self);
void canvas_measure_move (Canvas *self, double x, double y, CanvasHold hold);
void canvas_measure_click (Canvas *self, double x, double y, CanvasHold hold);
void canvas_measure_snapshot (Canvas *self, GtkSnapshot *snapshot);

/* canvas-pointer.c, canvas-keys.c: controllers of the widget. */
void canvas_add_pointer (Canvas *self);
void canvas_update_cursor (Canvas *self);
void canvas_add_keys (Canvas *self);
gboolean canvas_move_focus (GtkWidget *widget, GtkDirectionType direction);

/* canvas-overlay.c: selection, hover, guides and the pulse, each in a node no larger than it. */
void canvas_snapshot_overlay (Canvas *self, GtkSnapshot *snapshot);
