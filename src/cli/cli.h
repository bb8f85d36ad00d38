/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The command line: everything the window says, without a window. Machine output is SI with a decimal point in every
 * locale; only sentences are in the user's language. No function here exits the process. */
#pragma once

#include <stdbool.h>

/* Exit statuses; 64 and 74 are those of sysexits.h. */
enum { CLI_OK = 0, CLI_UNREADABLE = 2, CLI_NOT_SOUND = 3, CLI_USAGE = 64, CLI_UNWRITABLE = 74 };

/* True when the words after the program's name are for the command line, not for a window. */
bool cli_wants (int argc, char **argv);

/* Runs one command and returns its exit status. */
int cli_run (int argc, char **argv);
