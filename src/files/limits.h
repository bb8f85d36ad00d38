/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* How much a file may ask of this program. A document that keeps within the limits of design/draft.h and of
 * MAX_OPTIONS is far below them; what cannot be loaded again is not saved either. */
#pragma once

/* Bytes of one document or catalogue. */
#define FILES_MAX_BYTES (16u * 1024 * 1024)

/* Elements of one document, of any kind. */
#define FILES_MAX_ELEMENTS 400000u

/* Depth of elements: project, option, part, field - and room for what a wrong file may hold. */
#define FILES_MAX_DEPTH 16u

/* Bytes of the name of an element or attribute, and attributes of one element. */
#define FILES_MAX_NAME       64u
#define FILES_MAX_ATTRIBUTES 24u

/* Bytes of pasted pump points. */
#define FILES_MAX_PASTE 16384u
