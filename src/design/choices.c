/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "design/choices-private.h"

#include <glib.h>

#define N_(text) text

const FieldChoice choices_units[] = {{"metric", N_ ("Metric")}, {"us", N_ ("US")}, {NULL, NULL}};

const FieldChoice choices_paper[] = {{"a4", N_ ("A4")}, {"letter", N_ ("US Letter")}, {NULL, NULL}};

const FieldChoice choices_pane[] = {{"unknown", N_ ("Not known")},
                                    {"annealed", N_ ("Annealed")},
                                    {"tempered", N_ ("Tempered")},
                                    {NULL, NULL}};

const FieldChoice choices_overflow[] = {{"inside", N_ ("Box inside")},
                                        {"outside", N_ ("Box outside")},
                                        {"pair", N_ ("Pair through the glass")},
                                        {"hang-over", N_ ("Hang-over siphon box")},
                                        {NULL, NULL}};

const FieldChoice choices_weir[] = {{"plain", N_ ("Plain")}, {"toothed", N_ ("Toothed")}, {NULL, NULL}};

const FieldChoice choices_role[] = {{"standpipe", N_ ("Vented standpipe")},
                                    {"siphon", N_ ("Throttled siphon")},
                                    {"trickle", N_ ("Trickle channel")},
                                    {"emergency", N_ ("Dry emergency")},
                                    {NULL, NULL}};

const FieldChoice choices_entry[] = {{"flush", N_ ("Flush")},
                                     {"projecting", N_ ("Projecting pipe")},
                                     {"strainer", N_ ("Slotted strainer, clean")},
                                     {"strainer-half", N_ ("Slotted strainer, half covered")},
                                     {NULL, NULL}};

const FieldChoice choices_chamber[] = {{"inlet", N_ ("Inlet")},
                                       {"skimmer", N_ ("Skimmer")},
                                       {"refugium", N_ ("Refugium")},
                                       {"media", N_ ("Media")},
                                       {"trap", N_ ("Bubble trap")},
                                       {"return", N_ ("Return")},
                                       {NULL, NULL}};

const FieldChoice choices_baffle[] = {{"over", N_ ("Over")}, {"under", N_ ("Under")}, {NULL, NULL}};

const FieldChoice choices_service[] = {
    {"fixed", N_ ("Fixed")}, {"lifted", N_ ("Lifted out for service")}, {NULL, NULL}};

const FieldChoice choices_device[] = {{"skimmer", N_ ("Skimmer")},
                                      {"heater", N_ ("Heater")},
                                      {"probe", N_ ("Probe")},
                                      {"reactor", N_ ("Reactor")},
                                      {"media", N_ ("Media")},
                                      {"sock", N_ ("Sock holder")},
                                      {"other", N_ ("Other")},
                                      {"uv", N_ ("UV clarifier")},
                                      {"chiller", N_ ("Chiller")},
                                      {"feed", N_ ("Plain pipe end")},
                                      {NULL, NULL}};

const FieldChoice choices_placing[] = {
    {"submerged", N_ ("Submerged")}, {"outside", N_ ("Outside the sump")}, {NULL, NULL}};

const FieldChoice choices_outlet[] = {
    {"submerged", N_ ("Submerged")}, {"free", N_ ("Free jet")}, {NULL, NULL}};

const FieldChoice choices_bend[] = {{"auto", N_ ("Elbow by the angle")},
                                    {"elbow", N_ ("90 degree elbow")},
                                    {"sweep", N_ ("Long sweep")},
                                    {"two-45", N_ ("Two 45 degree elbows")},
                                    {NULL, NULL}};

const FieldChoice choices_cut_out[] = {{"none", N_ ("None")},
                                       {"run-time", N_ ("Longest run time")},
                                       {"high-level", N_ ("High level in the display")},
                                       {NULL, NULL}};

const FieldChoice choices_flag[] = {{"no", N_ ("No")}, {"yes", N_ ("Yes")}, {NULL, NULL}};
