#include "server/routes.h"

#include <fmt/format.h>

#include "base/aside.h"

namespace spadework::server {
namespace {

/// The parts of a path: "/api/gardens/ker-avel/sheet".
std::vector<std::string> parts_of(const std::string& path) {
  std::vector<std::string> parts;
  for (std::size_t at = 1; at <= path.size();) {
    const std::size_t end = std::min(path.find('/', at), path.size());
    parts.push_back(path.substr(at, end - at));
    at = end + 1;
  }
  return parts;
}

Answer nothing_here() {
  return error_answer(
      404, {ErrorCode::kWrongUse, "", "There is nothing here.", "Start from the first page."});
}

Answer new_id(const Result<std::string>& id, const std::vector<Error>& problems) {
  if (!id) return error_answer(id.error(), problems);
  return json_answer({{"id", *id}}, 201);
}

Answer shelf_answer(Shelf& shelf, const Request& request) {
  if (request.method == "GET") {
    const auto list = shelf.list();
    return list ? json_answer(*list) : error_answer(list.error());
  }
  const auto body = json_body(request);
  if (!body) return error_answer(body.error());
  std::vector<Error> problems;
  if (body->contains("document") && (*body)["document"].is_string())
    return new_id(shelf.add((*body)["document"], problems), problems);
  if (body->contains("begin") && (*body)["begin"].is_object()) {
    const auto text = begun_document((*body)["begin"]);
    if (!text) return error_answer(text.error());
    return new_id(shelf.add(*text, problems), problems);
  }
  if (body->contains("example") && (*body)["example"].is_string())
    return new_id(
        shelf.look_into((*body)["example"], body->value("afresh", Json(false)) == Json(true)),
        problems);
  if (body->contains("take_off") && (*body)["take_off"].is_string())
    return new_id(shelf.take_off((*body)["take_off"]), problems);
  if (body->contains("put_back") && (*body)["put_back"].is_string()) {
    const auto back = shelf.put_back((*body)["put_back"]);
    return back ? json_answer({{"id", (*body)["put_back"]}}) : error_answer(back.error());
  }
  return error_answer({ErrorCode::kWrongUse, "", "What is to be put on the shelf?", ""});
}

Answer long_answer(OpenGarden::Held& held, const Request& request, const std::string& id,
                   const std::string& what, Progress* progress) {
  if (what == "field") return field_of(held, request, progress);
  if (what == "places") return places_answer(held, request, progress);
  if (what == "takers") return takers_answer(held, request, progress);
  if (what == "inks") return inks_answer(held, request, progress);
  if (what == "print") return print_answer(held, request, progress);
  if (what == "band") return band_answer(held, request);
  if (what == "findings") return findings_answer(held, request);
  if (what == "why") return why_answer(held, request);
  if (what == "picture") return picture_answer(held, id, request);
  if (what == "section") return section_answer(held, id, request);
  if (what == "table") return table_answer(held, id, request);
  return nothing_here();
}

/// Long work that gives way, and that is left when nobody waits for it any more; in its turn, if it
/// has to wait for one.
Answer done_aside(const Request& request, Turns* turns, Progress* progress,
                  const std::function<Answer()>& work) {
  const auto has_left = [&] { return request.has_left && request.has_left(); };
  const auto turn = turns == nullptr ? std::nullopt : turns->wait(has_left);
  if (turns != nullptr && !turn)
    return error_answer({ErrorCode::kNoAnswer, "", "Nobody waited for it any more.", ""});
  Answer answer;
  run_aside([&] { answer = work(); },
            [&] {
              if (has_left()) progress->cancel();
            });
  return answer;
}

Answer read_answer(OpenGarden::Held& held, const Request& request, const std::string& id,
                   const std::string& what, Turns& turns, Progress* progress) {
  if (what == "revisions") return revisions_of(held);
  if (what == "files") return file_of(held, request);
  held.let_go();
  if (what.empty()) return state_of(held, request);
  if (what == "sheet") return sheet_of(held, request);
  if (what == "sheet_changes") return sheet_changes(held, request);
  if (what == "document") return document_of(held, id);
  // Light is long work: an edit made meanwhile, and the sheet with it, do not wait for it; nor does
  // the light on the sheet wait for figures.
  return done_aside(request, what == "field" ? nullptr : &turns, progress,
                    [&] { return long_answer(held, request, id, what, progress); });
}

Answer write_answer(OpenGarden::Held& held, const Request& request, const std::string& what) {
  if (what == "try" || what == "measure") {
    const auto trial = what == "try" ? held.begin_trial() : nullptr;
    held.let_go();
    if (what == "measure") return measure_answer(held, request);
    const auto body = json_body(request);
    if (!body || !body->value("ahead", false)) return try_edit(held, request, trial.get());
    return done_aside(request, nullptr, trial.get(),
                      [&] { return try_edit(held, request, trial.get()); });
  }
  held.end_trials();
  if (what == "edits") return edit(held, request);
  if (what == "steps") return step(held, request);
  if (what == "files") return take_file(held, request);
  return nothing_here();
}

Answer garden_answer(Shelf& shelf, const Request& request, const std::string& id,
                     const std::string& what) {
  const auto garden = shelf.garden(id);
  if (!garden) return error_answer(garden.error());
  const bool reads = request.method == "GET";
  if (what == "changes" && reads) {
    constexpr int kMostWait_ms = 20'000;
    const std::int64_t known = std::atoll(word_of(request, "change", "0").c_str());
    const std::int64_t change = (*garden)->wait_for_change(known, kMostWait_ms);
    const auto now = (*garden)->hold();
    if (!now) return error_answer(now.error());
    return json_answer({{"change", change}, {"head", head_json(*now)}});
  }
  const Jobs::Work work(shelf.jobs(), word_of(request, "job", ""));
  auto held = (*garden)->hold();
  if (!held) return error_answer(held.error());
  return reads ? read_answer(*held, request, id, what, shelf.turns(), work.progress())
               : write_answer(*held, request, what);
}

Answer job_answer(Jobs& jobs, const Request& request, const std::string& name) {
  const auto progress = jobs.find(name);
  if (request.method == "POST") {
    const auto body = json_body(request);
    if (!body) return error_answer(body.error());
    if (progress != nullptr && body->value("cancel", false)) progress->cancel();
  }
  return json_answer(
      {{"share", progress == nullptr ? 1 : progress->share()}, {"running", progress != nullptr}});
}

}  // namespace

namespace {

Answer answer_plainly(Shelf& shelf, const Workshop& workshop, const Request& request) {
  if (request.method != "GET" && request.method != "POST") return nothing_here();
  const std::vector<std::string> parts = parts_of(request.path);
  if (parts.size() < 2 || parts.size() > 4 || parts[0] != "api") return nothing_here();
  if (parts.size() == 2) {
    if (parts[1] == "about" && request.method == "GET")
      return json_answer({{"program", workshop.program}});
    if (parts[1] == "schema" && request.method == "GET") return schema_answer(workshop);
    if (parts[1] == "towns" && request.method == "GET") return towns_answer(workshop, request);
    if (parts[1] == "gardens") return shelf_answer(shelf, request);
    return nothing_here();
  }
  if (parts[1] == "jobs" && parts.size() == 3) return job_answer(shelf.jobs(), request, parts[2]);
  if (parts[1] != "gardens") return nothing_here();
  return garden_answer(shelf, request, parts[2], parts.size() == 4 ? parts[3] : "");
}

}  // namespace

Answer answer(Shelf& shelf, const Workshop& workshop, const Request& request) {
  try {
    return answer_plainly(shelf, workshop, request);
  } catch (const Json::exception&) {  // a value of another sort than the contract says
    return error_answer({ErrorCode::kWrongUse, "", "This page and the program do not fit.",
                         "Load the page again."});
  }
}

}  // namespace spadework::server
