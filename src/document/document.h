// Front door of the document room: garden documents in, patches out.
//
//   auto read = read_document(text, "ker-avel.toml", known);     // reader.h
//   if (!read.problems.empty()) …                                // each with line, column and hint
//   auto text2 = patch(text, {SetKey{{"tree", "medlar"}, {"height_m"}, "5.2"}});  // patch.h
//   auto edits = move_by({draft, "proposed", "medlar"}, {1, 0});  // thing_edits.h
//   auto other = rename(draft, "medlar", "Old medlar");           // rename.h
//   auto fresh = new_document({"Ker Avel", degrees(48.41), degrees(-4.36), "Europe/Paris"});
//   auto zone = load_time_zone("Europe/Paris");                  // time_zone.h
//   auto height = parse_length("6 ft 6 in");                     // units.h
//
// The schema that says which tables and keys there are is garden/schema.h; how large a document may
// be is limits.h. Nothing here throws or reads any file but the system's time zones.
#pragma once

#include "document/known_words.h"
#include "document/limits.h"
#include "document/new_document.h"
#include "document/patch.h"
#include "document/reader.h"
#include "document/rename.h"
#include "document/thing_edits.h"
#include "document/time_zone.h"
#include "document/units.h"
