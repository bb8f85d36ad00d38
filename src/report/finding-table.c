/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "report/finding-table.h"

#include <glib.h>

#define N_(text) text

static const FindingWords table[N_CHECKS] = {
    [CHECK_DRAIN_OVERRUN] =
        {N_ ("The drain cannot carry the flow"),
         N_ ("{part} carries at most {value} with the box at its rim; the pump may deliver {limit}: "
             "{percent}."),
         N_ ("Water runs over a rim as soon as the pump reaches its flow; there is no steady level."),
         N_ ("Slow the pump down, or use larger or more drain pipes."),
         {QUANTITY_LENGTH, QUANTITY_RATIO, QUANTITY_FLOW}},
    [CHECK_DRAIN_FULL_SPEED] =
        {N_ ("The drain fails at full pump speed"),
         N_ ("{part} carries {value} with the box at its rim; at full speed the pump may deliver {limit}: "
             "{percent}."),
         N_ ("Whoever turns the pump up floods the floor."),
         N_ ("Do not raise the pump's speed without setting the drain again; lock or mark the controller."),
         {QUANTITY_LENGTH}},
    [CHECK_DRAIN_SHORT] =
        {N_ ("The drain runs above its wanted level"),
         N_ ("{part} carries {value} at the wanted box level with its valves open; the pump delivers "
             "{limit}: {percent}. The box settles at {1} above the room floor."),
         N_ ("The box stands higher than planned, and an upper drain may run all day."),
         N_ ("Use a larger drain, fewer bends, or less flow."),
         {QUANTITY_LENGTH, QUANTITY_LENGTH}},
    [CHECK_DRAIN_NOISE] = {N_ ("The drain will be heard"),
                           N_ ("{part} carries {value} unprimed; it stays quiet up to {limit}: {percent}."),
                           N_ ("Air is drawn down in gulps. Noise is no danger, but owners complain of it."),
                           N_ ("Use a larger pipe, or a throttled siphon with a trickle channel."),
                           {QUANTITY_NONE}},
    [CHECK_SIPHON_RANGE] =
        {N_ ("The siphon's valve works far from its middle"),
         N_ ("Fully open, {part} carries {0}, {value} of the flow wanted; 150 % to 300 % is good practice."),
         N_ ("Too little leaves no reserve for dirt; too much makes the valve hard to set."),
         N_ ("Choose another pipe size."),
         {QUANTITY_FLOW}},
    [CHECK_SIPHON_NO_VALVE] = {N_ ("A siphon without a valve"),
                               N_ ("{part} has no valve; it needs one with a loss coefficient of {value} to "
                                   "hold the wanted box level."),
                               N_ ("Without a valve the siphon empties the box, draws air and gulps."),
                               N_ ("Put a gate valve low on the run, under water or near the sump."),
                               {QUANTITY_NONE}},
    [CHECK_SIPHON_GULPS] =
        {N_ ("The siphon's mouth draws air"),
         N_ ("{value} of water stands over the mouth of {part}; its flow needs {limit}: {spare}."),
         N_ ("A vortex draws air, the siphon loses its prime and its noise starts."),
         N_ ("Lower the mouth, raise the box level, or use a larger pipe."),
         {QUANTITY_NONE}},
    [CHECK_SIPHON_SUCTION] =
        {N_ ("The siphon's valve stands under suction"),
         N_ ("The pressure head above the valve of {part} is {value}: it lies {0} above the room floor."),
         N_ ("Below atmospheric pressure leaks let air in and the siphon becomes unsteady."),
         N_ ("Move the valve down, close to the sump."),
         {QUANTITY_LENGTH}},
    [CHECK_SIPHON_START] =
        {N_ ("The siphon may not start by itself"),
         N_ ("The end of {part} lies {value} below the sump's surface after a power cut; only {limit} of "
             "water can push its air out: {spare}."),
         N_ ("After a power cut the siphon may stay full of air, and the emergency drain has to carry all."),
         N_ ("Let the pipe end less deep under the surface, or raise the lip of the emergency drain."),
         {QUANTITY_NONE}},
    [CHECK_SIPHON_AIR] =
        {N_ ("The siphon clears its air slowly"),
         N_ ("At the start the full-bore Froude number in {part} is {value}; from about {limit} on water "
             "sweeps the air along."),
         N_ ("It starts, but gurgles until its air has gone by and by."),
         N_ ("Use a smaller pipe for the siphon."),
         {QUANTITY_NONE}},
    [CHECK_SIPHON_PRIMING] = {N_ ("Full bore may not be counted on"),
                              N_ ("To prime, {part} must be flooded to {value} above the room floor; "
                                  "something spills at {limit}: {spare}."),
                              N_ ("A pipe that cannot be flooded well over its lip may never run full; only "
                                  "its unprimed capacity counts."),
                              N_ ("Lower its lip, or raise the rim."),
                              {QUANTITY_NONE}},
    [CHECK_SIPHON_DRIFT] =
        {N_ ("The siphon hardly regulates itself"),
         N_ ("{part} takes up a change of flow of {value} before the box leaves its range of {0}; the pump "
             "may drift by {limit}."),
         N_ ("Without a trickle channel the valve must be set again whenever pump or pipe change a little."),
         N_ ("Add a trickle channel beside it."),
         {QUANTITY_LENGTH}},
    [CHECK_SIPHON_END] =
        {N_ ("The depth of the siphon's end"),
         N_ ("{part} ends {value} below the sump's running surface; {limit} is the limit of good practice."),
         N_ ("Too deep and it does not start; too shallow and it splashes and draws air."),
         N_ ("Change the height of its end."),
         {QUANTITY_NONE}},
    [CHECK_DRAIN_FLOOR] =
        {N_ ("A drain ends too close to the bottom"),
         N_ ("{part} ends {value} above the bottom of the sump; half its bore, {limit}, is the least: "
             "{spare}."),
         N_ ("The water must squeeze out sideways: the drain carries less, and scours the bottom."),
         N_ ("Cut the pipe shorter."),
         {QUANTITY_NONE}},
    [CHECK_EMERGENCY_END] =
        {N_ ("The emergency drain may end under water"),
         N_ ("{part} ends {value} above the room floor; it must end above {limit}: {spare}."),
         N_ ("An emergency drain under water has to push its air out before it runs, just when it is "
             "needed."),
         N_ ("Let it end above the power-off level."),
         {QUANTITY_NONE}},
    [CHECK_EMERGENCY_WET] =
        {N_ ("The emergency drain runs all the time"),
         N_ ("{part} carries {value} while all is well."),
         N_ ("It must be dry and in sight: water in it is the sign that a drain is blocked."),
         N_ ("Open the siphon's valve, enlarge the drain, or raise the emergency lip."),
         {QUANTITY_NONE}},
    [CHECK_FLOOD_FAILED] = {N_ ("Flood test failed"),
                            N_ ("With every drain but the emergency shut, {vessel} would rise to {value} "
                                "above the room floor; the lowest rim is at {limit}: {spare}. The emergency "
                                "may take only {0} at that rim; the pump may deliver {1}."),
                            N_ ("One blocked drain puts the display on the floor."),
                            N_ ("Use a larger emergency drain, lower its lip, or slow the pump down."),
                            {QUANTITY_FLOW, QUANTITY_FLOW, QUANTITY_COUNT}},
    [CHECK_FLOOD_PRIMED_ONLY] =
        {N_ ("Flood test passed only with a primed emergency"),
         N_ ("Not primed, the emergency lets the water rise to {value} above the room floor; the lowest rim "
             "is at {limit}: {spare}. Primed it holds {0}."),
         N_ ("It passes only if the emergency pipe fills and runs full, which nobody tries out."),
         N_ ("Use a larger emergency drain, or lower its lip, so that it carries the flow over its lip "
             "alone."),
         {QUANTITY_LENGTH, QUANTITY_FLOW}},
    [CHECK_FLOOD_FREEBOARD] = {N_ ("Little freeboard in the flood test"),
                               N_ ("With every drain but the emergency shut, {value} of freeboard is left at "
                                   "{part}; {limit} is wanted: {spare}."),
                               N_ ("A wave or a tank out of level spills."),
                               N_ ("Lower the emergency lip or enlarge the pipe."),
                               {QUANTITY_NONE}},
    [CHECK_FLOOD_FULL_SPEED] =
        {N_ ("Flood test fails at full pump speed"),
         N_ ("With every drain but the emergency shut and the pump at full speed ({0}), the water reaches "
             "{value} above the room floor; the lowest rim is at {limit}: {spare}."),
         N_ ("Turning the pump up takes the reserve of the emergency drain away."),
         N_ ("Do not raise the pump's speed without checking the drain again."),
         {QUANTITY_FLOW}},
    [CHECK_NO_EMERGENCY] = {N_ ("No emergency drain"),
                            N_ ("{part} has {value} open emergency drains; {limit} is wanted."),
                            N_ ("When the drain is blocked nothing else carries the flow; the transfer test "
                                "alone protects the floor."),
                            N_ ("Add a dry emergency drain."),
                            {QUANTITY_NONE}},
    [CHECK_EMERGENCY_RUNS_DRY] =
        {N_ ("The pump runs dry while the emergency carries all"),
         N_ ("The fuller display and box take {0} from the return chamber; its level falls to {value}, the "
             "suction needs {limit} above the room floor: {spare}."),
         N_ ("The pump draws air, stops cooling and the display level falls again: a slow see-saw."),
         N_ ("Raise the running level, or enlarge the return chamber."),
         {QUANTITY_VOLUME}},
    [CHECK_TRANSFER_FAILED] = {N_ ("Transfer test failed"),
                               N_ ("With the way down blocked the pump can lift {value} into {part}; there "
                                   "is room for {limit}: {percent}. {0} would run on the floor."),
                               N_ ("One clogged overflow empties the return chamber onto the floor."),
                               N_ ("Make the return chamber smaller, lower its running level, raise the "
                                   "suction, or leave more freeboard."),
                               {QUANTITY_VOLUME}},
    [CHECK_TRANSFER_RESERVOIR] =
        {N_ ("The reservoir follows when the way down is blocked"),
         N_ ("With the way down blocked and the whole reservoir following, {value} is lifted into {part}; "
             "there is room for {limit}: {percent}."),
         N_ ("The top-off refills what the pump lifts, until the reservoir is empty."),
         N_ ("Fit a cut-out: a longest run time for the top-off, or a high-level switch in the display that "
             "stops the pump."),
         {QUANTITY_NONE}},
    [CHECK_PRIME_LOST] = {N_ ("The siphon box can lose its prime"),
                          N_ ("If the tubes of {part} lose their prime they carry nothing: the pump lifts "
                              "{value} more into the "
                              "display, which has room for {limit}: {spare}."),
                          N_ ("Air gathers in the crown, a tube is knocked or clogs: nothing tells, and "
                              "nothing else carries the "
                              "water. Such a box is never safe by what it carries."),
                          N_ ("Let the return chamber hold less than the display has room for, clean the "
                              "tubes often, and drill "
                              "the tank where it can be drilled."),
                          {QUANTITY_VOLUME}},
    [CHECK_TUBE_AIR] = {N_ ("Bubbles gather in the crown of the siphon tubes"),
                        N_ ("The full-bore Froude number in the tubes of {part} is {value}; from about "
                            "{limit} on water sweeps "
                            "bubbles along: {spare}."),
                        N_ ("Bubbles that stay grow until the siphon breaks, days or weeks later."),
                        N_ ("Use fewer or narrower tubes. An air pump on the crown helps while it runs, and "
                            "is never counted "
                            "as safety."),
                        {QUANTITY_NONE}},
    [CHECK_TUBES_SHORT] = {N_ ("The siphon tubes are too small"),
                           N_ ("The tubes of {part} carry {value} with the inner box at the crest; the pump "
                               "may deliver {limit}: "
                               "{percent}."),
                           N_ ("The inner box rises over the crest and holds the display up."),
                           N_ ("Use more or wider tubes, or lower the seal."),
                           {QUANTITY_NONE}},
    [CHECK_SEAL_LOW] =
        {N_ ("The seal hardly covers the tubes"),
         N_ ("When nothing flows {value} of water stands over the ends of the tubes of {part}; "
             "{limit} is wanted: {spare}."),
         N_ ("Where an end comes clear the tubes fill with air and do not start again after a "
             "power cut."),
         N_ ("Let the tubes end lower, or raise the wall that holds the seal."),
         {QUANTITY_NONE}},
    [CHECK_HEIGHTS_ORDER] =
        {N_ ("Heights are out of order"),
         N_ ("{part} is at {value} above the room floor, and must be under {other} at {limit}: {spare}."),
         N_ ("Mouth of the siphon, lip of the trickle channel, lip of the emergency, crest and rims must lie "
             "in this order, or the wrong pipe runs first."),
         N_ ("Correct the heights."),
         {QUANTITY_NONE}},
    [CHECK_HEIGHTS_GAP] = {N_ ("Two heights lie close together"),
                           N_ ("{part} lies {value} under {other}; {limit} is wanted: {spare}."),
                           N_ ("Levels are built to about 3 mm; a small gap may vanish."),
                           N_ ("Move one of the two."),
                           {QUANTITY_NONE}},
    [CHECK_DISPLAY_OVER_RIM] = {N_ ("The display stands over its rim"),
                                N_ ("{part} rises to {value} above the room floor; its rim or brace is at "
                                    "{limit}: {spare}. The head over the crest is {0}."),
                                N_ ("Water runs over the rim while all works as planned."),
                                N_ ("Lower the crest, lengthen the weir, or reduce the flow."),
                                {QUANTITY_LENGTH}},
    [CHECK_DISPLAY_FREEBOARD] = {N_ ("Little freeboard in the display"),
                                 N_ ("{part} has {value} of freeboard while running; {limit} is wanted: "
                                     "{spare}. The head over the crest is {0}."),
                                 N_ ("Waves, a hand in the water or a covered comb spill."),
                                 N_ ("Lower the crest or lengthen the weir."),
                                 {QUANTITY_LENGTH}},
    [CHECK_DISPLAY_FULL_SPEED] =
        {N_ ("Little freeboard at full pump speed"),
         N_ ("At full speed {part} has {value} of freeboard; {limit} is wanted: {spare}."),
         N_ ("Turning the pump up takes the freeboard away."),
         N_ ("Do not raise the pump's speed without checking the level."),
         {QUANTITY_NONE}},
    [CHECK_BOX_OVER_RIM] =
        {N_ ("The overflow box stands over its rim"),
         N_ ("The box of {part} rises to {value} above the room floor; its rim is at {limit}: {spare}."),
         N_ ("The box spills."),
         N_ ("Enlarge the drain or reduce the flow."),
         {QUANTITY_NONE}},
    [CHECK_WEIR_DROWNED] =
        {N_ ("The weir is drowned by its box"),
         N_ ("The box of {part} stands at {value} above the room floor, over the crest at {limit}."),
         N_ ("The display rises with the box, and the surface is skimmed badly."),
         N_ ("Lower the box level: open the valve or enlarge the drain."),
         {QUANTITY_NONE}},
    [CHECK_WEIR_LOADING] = {N_ ("The weir is loaded heavily"),
                            N_ ("The head over the crest of {part} is {value}; {limit} is the limit of good "
                                "practice. That is {0} per metre of open crest."),
                            N_ ("The level swings with the flow, and animals are drawn to the weir."),
                            N_ ("Lengthen the weir."),
                            {QUANTITY_FLOW}},
    [CHECK_COMB_CHOKES] = {N_ ("A half-covered comb floods the display"),
                           N_ ("With half of its crest covered, {part} lets the display rise to {value} "
                               "above the room floor; the rim is at {limit}: {spare}."),
                           N_ ("Leaves, snails and algae cover combs."),
                           N_ ("Lengthen the weir, widen the gaps, or leave more freeboard."),
                           {QUANTITY_NONE}},
    [CHECK_SUMP_OVER_RIM] =
        {N_ ("The sump runs over while the pump runs"),
         N_ ("{part} stands at {value} above the room floor; the rim of the sump is at {limit}: {spare}."),
         N_ ("It spills as soon as the pump runs."),
         N_ ("Lower the baffle before it or the running level."),
         {QUANTITY_NONE}},
    [CHECK_DRAIN_BACK_FLOODS] =
        {N_ ("The sump floods when the power fails"),
         N_ ("{value} run back when the pump stops; the sump takes {limit}: {percent}. {0} run on the "
             "floor."),
         N_ ("Every power cut, and every feeding pause, floods the floor."),
         N_ ("Lower the running level, raise the siphon break, or take a larger sump."),
         {QUANTITY_VOLUME, QUANTITY_LENGTH, QUANTITY_LENGTH}},
    [CHECK_DRAIN_BACK_FREEBOARD] = {N_ ("Little freeboard after drain-back"),
                                    N_ ("After a power cut {value} of freeboard is left in {part}; {limit} "
                                        "is wanted: {spare}. {0} run back."),
                                    N_ ("A level marked a little too high already spills."),
                                    N_ ("Lower the running level, or take a larger sump."),
                                    {QUANTITY_VOLUME}},
    [CHECK_DRAIN_BACK_PLUGGED] =
        {N_ ("A plugged siphon break floods the sump"),
         N_ ("With the siphon break plugged {value} run back; the sump takes {limit}: {percent}. {0} run on "
             "the floor."),
         N_ ("Algae and snails plug the holes; a check valve in their stead sticks."),
         N_ ("Raise the outlets, drill the break where it is seen and cleaned, or lower the running level."),
         {QUANTITY_VOLUME}},
    [CHECK_CHECK_VALVE] =
        {N_ ("The check valve is not counted on"),
         N_ ("A sound check valve would hold back {value} at a power cut. No verdict rests on it."),
         N_ ("Sand, snails and scale hold check valves open."),
         N_ ("Keep the siphon break clean all the same."),
         {QUANTITY_NONE}},
    [CHECK_SUMP_STAND] = {N_ ("The sump does not fit the stand"),
                          N_ ("The {axis} of {part} is {value}; the stand has {limit} for it: {spare}."),
                          N_ ("It cannot be set in, or leaves no room for hands and pipes."),
                          N_ ("Take a smaller sump."),
                          {QUANTITY_NONE}},
    [CHECK_SUMP_DOOR] = {N_ ("The sump does not pass the door"),
                         N_ ("The {axis} of {part} is {value}; the door lets {limit} through: {spare}."),
                         N_ ("It must be set in before the tank, and can then never be replaced."),
                         N_ ("Take a smaller sump, or a larger door."),
                         {QUANTITY_NONE}},
    [CHECK_SUMP_ROOM] =
        {N_ ("Too little working room above the sump"),
         N_ ("{value} are free above the sump's rim; what is lifted out needs {limit}: {spare}."),
         N_ ("Socks and cups that cannot be lifted out are not cleaned."),
         N_ ("Take a lower sump, shorter socks, or a higher stand."),
         {QUANTITY_NONE}},
    [CHECK_SOCK_FLOW] = {N_ ("The filter socks carry too little"),
                         N_ ("{value} pass the socks of {part}; clean they carry {limit}: {percent}."),
                         N_ ("They overflow their holder soon, and must be changed often."),
                         N_ ("Use more or larger socks; change them every 3 to 5 days to begin with."),
                         {QUANTITY_COUNT}},
    [CHECK_SOCK_CLOGGED] = {N_ ("Clogged socks overflow the sump"),
                            N_ ("With the socks of {part} clogged, {1} leave over the bypass lip and stand "
                                "{value} above the room "
                                "floor; the sump's rim is at {0}, and {limit} is the most wanted: {spare}."),
                            N_ ("A sock clogs within days; what cannot pass the bypass runs on the floor."),
                            N_ ("Lower the bypass lip of the holder, or make it longer."),
                            {QUANTITY_LENGTH, QUANTITY_FLOW}},
    [CHECK_SOCK_BACKS_UP] =
        {N_ ("Clogged socks back up the drain"),
         N_ ("With the socks clogged the water stands {0} above the room floor over the drain's end; {part} "
             "then carries {value} with its box at the rim, and the pump may deliver {limit}: {percent}."),
         N_ ("The display rises over its rim although every drain is clean."),
         N_ ("Lower the bypass lip, or use a larger drain."),
         {QUANTITY_LENGTH}},
    [CHECK_CHAMBER_VELOCITY] = {N_ ("Water runs fast through a chamber"),
                                N_ ("Water passes {part} at {value}; {limit} is the most wanted: {percent}."),
                                N_ ("Bubbles are carried on to the pump and into the display."),
                                N_ ("Make the chamber wider or its water deeper."),
                                {QUANTITY_NONE}},
    [CHECK_BAFFLE_LEVEL] =
        {N_ ("A baffle holds the water up"),
         N_ ("Passing {part} takes {value} of level; {limit} is the most wanted: {spare}."),
         N_ ("The chamber before it stands higher than planned and holds more water back."),
         N_ ("Raise the gap or lower the edge."),
         {QUANTITY_NONE}},
    [CHECK_TURNOVER_LOW] = {N_ ("Too little turnover"),
                            N_ ("The turnover is {value}; {limit} is the least wanted: {percent}."),
                            N_ ("Filters and heater act on too little water."),
                            N_ ("Choose a stronger pump, wider pipe, or more speed."),
                            {QUANTITY_RATIO}},
    [CHECK_TURNOVER_HIGH] = {N_ ("More turnover than wanted"),
                             N_ ("The turnover is {value}; {limit} is the most wanted: {percent}."),
                             N_ ("It costs power and noise, and asks more of overflow and drain."),
                             N_ ("Slow the pump down, or choose a smaller one."),
                             {QUANTITY_RATIO}},
    [CHECK_DISPLAY_STARVED] =
        {N_ ("No water for the display"),
         N_ ("{part} gets {value}: its pump runs, but the branches to the sump take all."),
         N_ ("The display is neither filtered nor heated, and its water stands."),
         N_ ("Throttle the branches, or take a stronger pump."),
         {QUANTITY_NONE}},
    [CHECK_PUMP_TOO_WEAK] = {N_ ("The pump does not reach the display"),
                             N_ ("{part} lifts at most {value}; the water must be lifted {limit}: {spare}."),
                             N_ ("No water comes back to the display."),
                             N_ ("Choose a pump with more head."),
                             {QUANTITY_NONE}},
    [CHECK_PUMP_START] = {N_ ("The pump cannot lift over the top of the pipe"),
                          N_ ("{part} lifts at most {value}; the highest point of the pipe lies {limit} "
                              "over the return level: {spare}."),
                          N_ ("It may run, but not start again after a power cut."),
                          N_ ("Lower the pipe, or choose a pump with more head."),
                          {QUANTITY_NONE}},
    [CHECK_PUMP_BEYOND_CURVE] =
        {N_ ("The pump runs past its curve"),
         N_ ("{part} delivers {value}; its curve ends at {limit}: {percent}."),
         N_ ("Beyond its last point a curve is a guess, and motor and bearings may suffer."),
         N_ ("Choose a larger pump, or throttle this one."),
         {QUANTITY_NONE}},
    [CHECK_RETURN_VELOCITY] =
        {N_ ("Water runs fast in the return pipe"),
         N_ ("Water runs at {value} in {part}; {limit} is the limit of good practice: {percent}."),
         N_ ("It is heard, costs head and hammers when a valve shuts."),
         N_ ("Use the next larger pipe."),
         {QUANTITY_NONE}},
    [CHECK_NOZZLE_VELOCITY] = {N_ ("Velocity at the outlet"),
                               N_ ("Water leaves {part} at {value}; {limit} is the limit of good practice."),
                               N_ ("Too slow does not stir the tank, too fast blows sand and animals about."),
                               N_ ("Change the nozzle."),
                               {QUANTITY_NONE}},
    [CHECK_SUCTION_VELOCITY] =
        {N_ ("Water runs fast into the pump"),
         N_ ("Water enters {part} at {value}; {limit} is the limit of good practice: {percent}."),
         N_ ("It draws air and small animals, and costs suction head."),
         N_ ("Use a larger suction or strainer."),
         {QUANTITY_NONE}},
    [CHECK_SUCTION_COVER] =
        {N_ ("Too little water over the suction"),
         N_ ("{value} of water stand over the suction of {part}; {limit} are wanted: {spare}."),
         N_ ("A vortex draws air, and the display fills with fine bubbles."),
         N_ ("Raise the running level, or lower the suction."),
         {QUANTITY_LENGTH}},
    [CHECK_NPSH] =
        {N_ ("The pump has no flooded suction"),
         N_ ("The water stands {value} over the suction of {part}; an outside pump needs it above {limit}."),
         N_ ("It does not fill by itself and runs dry at the start."),
         N_ ("Set the pump lower, or raise the running level."),
         {QUANTITY_HEAD}},
    [CHECK_NPSH_MARGIN] =
        {N_ ("The pump outside may cavitate"),
         N_ ("At the suction of {part} {value} of net positive suction head are available; required with a "
             "margin are {limit}: {spare}."),
         N_ ("Vapour bubbles eat the impeller, and the flow falls off its curve."),
         N_ ("Use a shorter and wider suction pipe with fewer fittings, or set the pump lower."),
         {QUANTITY_NONE}},
    [CHECK_PUMP_ESTIMATE] =
        {N_ ("The pump's curve is an estimate"),
         N_ ("The curve of {part} is drawn through {value} points; with fewer than {limit} its shape is an "
             "estimate, and so is every flow computed from it."),
         N_ ("Between its highest head and its largest flow a pump may be off by a fifth."),
         N_ ("Take the curve of its maker, or measure the flow with a bucket."),
         {QUANTITY_NONE}},
    [CHECK_NO_BREAK] = {N_ ("An outlet without a siphon break"),
                        N_ ("{part} has no siphon break; its mouth stops the back-flow only at {value} above "
                            "the room floor, and lets {0} more run back than the crest would."),
                        N_ ("When the pump stops, the display siphons down to the mouth."),
                        N_ ("Drill a siphon break just under the surface."),
                        {QUANTITY_VOLUME}},
    [CHECK_BREAK_SUCTION] = {N_ ("The siphon break draws air while running"),
                             N_ ("The pressure head at the siphon break of {part} is {value} while the pump "
                                 "runs; it must be above {limit}."),
                             N_ ("Air is drawn in and blown into the display all day."),
                             N_ ("Move the break to where the pipe is under pressure, near the mouth."),
                             {QUANTITY_NONE}},
    [CHECK_BREAK_LOW] = {N_ ("A siphon break below the crest"),
                         N_ ("The siphon break of {part} lies at {value} above the room floor, the crest at "
                             "{limit}; {0} more run back before it lets air in."),
                         N_ ("Every millimetre counts over the whole plan area of the display."),
                         N_ ("Raise the break to the crest."),
                         {QUANTITY_VOLUME}},
    [CHECK_OUTLET_SPLASH] =
        {N_ ("A submerged outlet above the surface"),
         N_ ("The mouth of {part} lies at {value} above the room floor; the running surface is at {limit}."),
         N_ ("It splashes, wets the rim with salt and lets noise out."),
         N_ ("Lower the outlet, or call it a free jet."),
         {QUANTITY_NONE}},
    [CHECK_DEVICE_DEPTH] = {N_ ("Wrong depth of water for a device"),
                            N_ ("{part} stands in {value} of water; it wants {limit}, to {0}."),
                            N_ ("A skimmer at the wrong depth foams over or does nothing."),
                            N_ ("Change the height it stands at, or the baffle that holds its level."),
                            {QUANTITY_LENGTH}},
    [CHECK_DEVICE_DRY] =
        {N_ ("A device may fall dry"),
         N_ ("The water at {part} may fall to {value} above the room floor; it must stay wet to {limit}: "
             "{spare}."),
         N_ ("A heater in air cracks or burns; a dry probe reads nonsense, and its controller acts on it."),
         N_ ("Mount it lower, or in a chamber of constant depth."),
         {QUANTITY_NONE}},
    [CHECK_DEVICE_ROOM] =
        {N_ ("Too little room above a device"),
         N_ ("{value} are free above {part}; {limit} are wanted to lift it or its cup out: {spare}."),
         N_ ("It cannot be cleaned in place."),
         N_ ("Set it lower, or choose a lower one."),
         {QUANTITY_NONE}},
    [CHECK_DEVICE_FIT] = {N_ ("A device does not fit its chamber"),
                          N_ ("The {axis} of {part} is {value}; its chamber has {limit}: {spare}."),
                          N_ ("It cannot be placed."),
                          N_ ("Widen the chamber."),
                          {QUANTITY_NONE}},
    [CHECK_DEVICE_FLOW_LOW] =
        {N_ ("Too little flow through a device"),
         N_ ("{part} gets {value}; it wants {limit} at least: {percent}."),
         N_ ("It does less than it was bought for; in a reactor the water may turn foul."),
         N_ ("Open its valve further, widen its pipe, or take the branch off nearer to the "
             "pump."),
         {QUANTITY_NONE}},
    [CHECK_DEVICE_FLOW_HIGH] =
        {N_ ("Too much flow through a device"),
         N_ ("{part} gets {value}; it bears {limit} at most: {percent}."),
         N_ ("It washes out its filling or passes water before it has acted on it, and the "
             "display lacks that flow."),
         N_ ("Throttle its valve."),
         {QUANTITY_NONE}},
    [CHECK_TOP_OFF_SHORT] = {N_ ("The reservoir is soon empty"),
                             N_ ("The reservoir lasts {value}; {limit} are wanted: {percent}."),
                             N_ ("Somebody must fill it more often, also in the holidays."),
                             N_ ("Take a larger reservoir."),
                             {QUANTITY_NONE}},
    [CHECK_TOP_OFF_NONE] =
        {N_ ("No top-off"),
         N_ ("There is no top-off reservoir; the pump draws air {value} after the last filling."),
         N_ ("Evaporation lowers the return chamber alone, and salinity rises."),
         N_ ("Plan a reservoir, or fill up daily."),
         {QUANTITY_NONE}},
    [CHECK_RESERVE_SHORT] =
        {N_ ("The return chamber holds little reserve"),
         N_ ("Without top-off the pump draws air after {value}; {limit} are wanted: {percent}."),
         N_ ("One empty reservoir over a weekend, and the pump runs dry."),
         N_ ("Enlarge the return chamber, raise its running level, or lower the suction."),
         {QUANTITY_NONE}},
    [CHECK_TOP_OFF_FLOODS] =
        {N_ ("A top-off that sticks on floods the sump"),
         N_ ("The reservoir holds {value}; the running sump has room for {limit}: {percent}."),
         N_ ("One stuck float switch empties it onto the floor. A switch in the display does not see it: the "
             "weir holds that level."),
         N_ ("Give the top-off a longest run time, or take a smaller reservoir."),
         {QUANTITY_NONE}},
    [CHECK_TOP_OFF_POWER_CUT] =
        {N_ ("An overfilled sump floods at the next power cut"),
         N_ ("Reservoir and drain-back are {value} together; the sump has room for {limit}: {percent}."),
         N_ ("After a top-off that stuck on, the next power cut spills."),
         N_ ("Give the top-off a longest run time, or take a smaller reservoir."),
         {QUANTITY_NONE}},
    [CHECK_TOP_OFF_DILUTES] =
        {N_ ("A top-off that sticks on dilutes the water"),
         N_ ("With the whole reservoir in it the water has {value}; {limit} is the least that is borne at "
             "once: {spare}."),
         N_ ("Corals and invertebrates suffer from a sudden fall of salinity."),
         N_ ("Give the top-off a longest run time, or take a smaller reservoir."),
         {QUANTITY_NONE}},
    [CHECK_TOP_OFF_SIPHON] =
        {N_ ("The top-off tube may siphon"),
         N_ ("The tube ends {value} above the room floor; the water may rise to {limit}: {spare}."),
         N_ ("Once under water the tube can empty the reservoir, or salt water runs back into it."),
         N_ ("End the tube above the power-off level, with an air gap."),
         {QUANTITY_NONE}},
    [CHECK_TOP_OFF_RUNS_ON] =
        {N_ ("The reservoir can run on by itself"),
         N_ ("The top-off tube ends {value} above the room floor, under the surface of the full reservoir at "
             "{limit}: {spare}."),
         N_ ("Once its pump has filled the tube, the reservoir siphons into the sump, and switching the pump "
             "off does not stop it."),
         N_ ("End the tube higher than the full reservoir, or let air in at the top of the tube."),
         {QUANTITY_NONE}},
    [CHECK_CIRCUIT_LOAD] = {N_ ("The circuit is heavily loaded"),
                            N_ ("{value} are connected; {limit} is 80 % of the circuit: {percent}."),
                            N_ ("The circuit trips, which is a power cut that nobody sees."),
                            N_ ("Share the load over two circuits; a licensed electrician decides."),
                            {QUANTITY_NONE}},
    [CHECK_SOCKET_HEIGHT] =
        {N_ ("A socket lies low"),
         N_ ("The lowest socket is at {value} above the room floor; the sump may fill to {limit}: {spare}."),
         N_ ("Water and electricity meet at the first spill."),
         N_ ("Mount sockets high, with drip loops, off the splash line."),
         {QUANTITY_NONE}},
    [CHECK_PANE_TEMPERED] =
        {N_ ("A tempered pane is to be drilled"),
         N_ ("The {pane} of {part} is tempered; the design asks for {value} holes through it."),
         N_ ("A tempered pane shatters when it is drilled."),
         N_ ("Use a box that needs no hole there, or another pane."),
         {QUANTITY_COUNT}},
    [CHECK_PANE_ASK] = {N_ ("Ask whether the pane is tempered"),
                        N_ ("The design asks for {value} holes through the {pane} of {part}; whether it is "
                            "tempered is not known."),
                        N_ ("A tempered pane shatters when it is drilled."),
                        N_ ("Ask the maker, and test each pane, the bottom first."),
                        {QUANTITY_COUNT}},
    [CHECK_NOT_SOLVED] = {N_ ("Something could not be computed"),
                          N_ ("{value} relations gave no answer."),
                          N_ ("What is shown as a dash is not known; do not build from it."),
                          N_ ("Check the findings above, and extreme inputs."),
                          {QUANTITY_NONE}},
};

const FindingWords *
finding_words (CheckId check)
{
  g_assert ((unsigned) check < N_CHECKS && table[check].title != NULL);
  return &table[check];
}
