/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* A design to draw, invented for the tests: tank 1500 x 600 x 600 mm with a box at its left end, a siphon, a trickle channel
 * and an emergency drain, a sump of four chambers, one pump, a tee and two outlets; and an evaluation of it put
 * together by hand, with water that lies where such a system has it. */
#pragma once

#include "drawing/chart.h"
#include "drawing/scene.h"

Catalogue *fixture_catalogue (void);
Design *fixture_design (void);

/* The same with a tank of this length; the rest grows or shrinks along, as the field table's rules have it. */
Design *fixture_sized (double length_m);

/* 3 tanks, 6 pumps, 200 parts: how crowded a drawing may get. */
Design *fixture_many (void);
Scene *fixture_many_view (SceneProjection projection);

/* Three tanks on one sump as the solver has them, `after_s` seconds after the power has failed, or while it runs (0). */
Scene *fixture_three_view (SceneProjection projection, double after_s);

/* Levels, flows and one finding of each grade. */
Evaluation *fixture_evaluation (const Design *design);

/* Six invented pumps, their loop, the drain's limit and a target; constant. */
const ChartData *fixture_chart (void);

Scene *fixture_scene (SceneKind kind, bool with_water);
Scene *fixture_view (SceneKind kind, SceneProjection projection, bool with_water);
