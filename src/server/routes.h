// What can be asked of the server, apart from how it comes over the wire. For the server room
// alone.
#pragma once

#include <functional>
#include <map>
#include <string>
#include <vector>

#include "light/taker_inks.h"
#include "server/jobs.h"
#include "server/shelf.h"

namespace spadework::server {

struct Request {
  std::string method, path;                  // path: decoded, without the query
  std::map<std::string, std::string> query;  // decoded
  std::string body;
  /// Whether nobody waits for the answer any more, asked by the thread that answers; may be empty.
  std::function<bool()> has_left = {};
};

/// Answers a request under /api/. web/openapi.json is the contract.
[[nodiscard]] Answer answer(Shelf& shelf, const Workshop& workshop, const Request& request);

// The parts of it, by topic. Each is given the garden held.

/// garden_routes.cpp: the document and what is done to it.
[[nodiscard]] Answer state_of(OpenGarden::Held& garden, const Request& request);
[[nodiscard]] Answer sheet_of(OpenGarden::Held& garden, const Request& request);
[[nodiscard]] Answer sheet_changes(OpenGarden::Held& garden, const Request& request);
[[nodiscard]] Answer edit(OpenGarden::Held& garden, const Request& request);
[[nodiscard]] Answer step(OpenGarden::Held& garden, const Request& request);
[[nodiscard]] Answer revisions_of(OpenGarden::Held& garden);
[[nodiscard]] Answer document_of(OpenGarden::Held& garden, const std::string& id);
/// Tables and keys, and the words of each catalogue that they name, the usual ones first.
[[nodiscard]] Answer schema_answer(const Workshop& workshop);

/// light_routes.cpp: its light, cell by cell.
[[nodiscard]] Answer field_of(OpenGarden::Held& garden, const Request& request, Progress* progress);
[[nodiscard]] Answer try_edit(OpenGarden::Held& garden, const Request& request, Progress* progress);
/// Bytes: the head's length in four, low first; the head; the cells.
[[nodiscard]] Answer packed(const Json& head, const std::string& cells);

/// answer_routes.cpp: what the margin and the band say.
[[nodiscard]] Answer places_answer(OpenGarden::Held& garden, const Request& request,
                                   Progress* progress);
[[nodiscard]] Answer takers_answer(OpenGarden::Held& garden, const Request& request,
                                   Progress* progress);
[[nodiscard]] Answer inks_answer(OpenGarden::Held& garden, const Request& request,
                                 Progress* progress);
[[nodiscard]] Answer findings_answer(OpenGarden::Held& garden, const Request& request);
[[nodiscard]] Answer why_answer(OpenGarden::Held& garden, const Request& request);
[[nodiscard]] Answer band_answer(OpenGarden::Held& garden, const Request& request);
/// `place`: whose taker it is, where there is one.
[[nodiscard]] Json taker_json(const std::string& id, const light::Place* place,
                              double sun_h_per_year, const light::TakerInks& inks);

/// export_routes.cpp: what is taken along.
[[nodiscard]] Answer print_answer(OpenGarden::Held& garden, const Request& request,
                                  Progress* progress);
[[nodiscard]] Answer picture_answer(OpenGarden::Held& garden, const std::string& id,
                                    const Request& request);
[[nodiscard]] Answer table_answer(OpenGarden::Held& garden, const std::string& id,
                                  const Request& request);

/// section_routes.cpp: the garden cut along a line, at a moment where one is asked for: the picture
/// and the figures in it.
[[nodiscard]] Answer section_answer(OpenGarden::Held& garden, const std::string& id,
                                    const Request& request);

/// file_routes.cpp: files beside the document.
[[nodiscard]] Answer file_of(OpenGarden::Held& garden, const Request& request);
/// The body is the file. Only a picture or one that can be read as weather is taken.
[[nodiscard]] Answer take_file(OpenGarden::Held& garden, const Request& request);

/// begin_routes.cpp: where a garden lies: coordinates that were typed with the towns near them, or
/// the towns of that name.
[[nodiscard]] Answer towns_answer(const Workshop& workshop, const Request& request);
/// In: `latitude_deg`, `longitude_deg`, `time_zone`, and where they are known `title`,
/// `elevation_m`, `units`, and which of these figures are `guessed`. Errors: kWrongUse; those of
/// document::bare_document().
[[nodiscard]] Result<std::string> begun_document(const Json& begin);

/// measure_routes.cpp: `what` of plot, noon, north, shadow, height, skyline, fall, with what was
/// taped or seen: the figure, how sure it is, what would make it surer.
[[nodiscard]] Answer measure_answer(OpenGarden::Held& garden, const Request& request);

// state_json.cpp

/// The garden of one scheme as the sheet, the list and the forms want it, as JSON. Of its things
/// only those that are other than in the change `since`, where that is still known.
[[nodiscard]] Result<std::string> state_text(OpenGarden::Held& garden, const std::string& scheme,
                                             std::int64_t since);
[[nodiscard]] Json head_json(const OpenGarden::Held& garden);

// edit_request.cpp

struct EditsDone {
  OpenGarden::Held::Edited document;  // as they leave it, or the first that makes problems
  std::vector<std::string> made;      // ids of what came
};
/// What a person does: one part, or under `all` several, each on what those before it leave.
/// In: a part is `scheme` and `thing` with one of `set` (keys with their new values, null: left
///     out), `move_m` ([x, y]), `put_back`, `take_away`; or `table`, which entry of it, and `set`
///     or `take_away` (entry_request.h); or `scheme` and `add` (a table) with `called` and `set`;
///     or `thing` and `rename` (its new name); or `make_scheme`, `merge_scheme`, `drop_scheme` with
///     its name; or `rename_scheme` with its name and `called` (its new one).
/// Errors: kWrongUse; those of document/thing_edits.h, rename.h and scheme_edits.h.
[[nodiscard]] Result<EditsDone> edits_done(const OpenGarden::Held& garden, const Json& request);
/// The draft as an edit would leave it. Errors: as above, and the problems that it would make.
[[nodiscard]] Result<garden::Draft> draft_with(const OpenGarden::Held& garden, const Json& request);
/// The ids that came by a request which is sent again and was done already, where it tells them.
[[nodiscard]] std::vector<std::string> made_again(const Json& request);
/// What was done, in the past: "medlar moved", "bed-2 added"; or what the request `says` of it.
[[nodiscard]] std::string edit_says(const Json& request, const std::vector<std::string>& made);

/// The body as a JSON object. Errors: kWrongUse.
[[nodiscard]] Result<Json> json_body(const Request& request);
/// A query's word, or what stands in for it.
[[nodiscard]] std::string word_of(const Request& request, const std::string& key,
                                  const std::string& usual);

}  // namespace spadework::server
