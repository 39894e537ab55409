#include <fmt/format.h>

#include <cmath>
#include <set>

#include "garden/schema.h"
#include "server/routes.h"

namespace spadework::server {
namespace {

/// Carries out what a request asks of the store, and answers with the head.
template <class Change>
Answer change(const Request& request, Change act) {
  const auto body = json_body(request);
  if (!body) return error_answer(body.error());
  const Json id = body->value("command", Json()), on = body->value("change", Json());
  if (!id.is_string() || id.get<std::string>().empty() || id.get<std::string>().size() > 100 ||
      !on.is_number_integer())
    return error_answer({ErrorCode::kWrongUse, "/command",
                         "A change carries an id of its own and what it was made on.", ""});
  return act(*body, store::Command{id.get<std::string>(), on.get<std::int64_t>()});
}

Answer told(OpenGarden::Held& garden, const Result<store::Head>& head,
            const std::vector<std::string>& made = {},
            OpenGarden::Held::Edited* written = nullptr) {
  if (const auto taken = garden.take(head, written); !taken) return error_answer(taken.error());
  return json_answer({{"head", head_json(garden)}, {"made", made}});
}

std::string title_of(const garden::Draft& draft) {
  const garden::Entry* entry = draft.single("garden");
  return entry == nullptr ? "" : entry->text("title");
}

}  // namespace

Answer state_of(OpenGarden::Held& garden, const Request& request) {
  const std::int64_t since = std::atoll(word_of(request, "since", "-1").c_str());
  auto state = state_text(garden, word_of(request, "scheme", "proposed"), since);
  if (!state) return error_answer(state.error());
  return {200, "application/json", std::move(*state), ""};
}

Answer edit(OpenGarden::Held& garden, const Request& request) {
  return change(request, [&](const Json& body, const store::Command& command) {
    if (command.change != garden.head().change) {
      // Sent again, or someone else was quicker: the store knows.
      const auto head = garden.file().write(command, garden.text(), garden.head().title, "");
      return told(garden, head, made_again(body));
    }
    auto done = edits_done(garden, body);
    if (!done) return error_answer(done.error());
    const auto& [source, draft, problems] = done->document;
    if (!problems.empty()) return error_answer(problems[0], problems);
    for (const std::string& scheme : garden::scheme_names(draft)) {
      if (const auto stands = garden::resolve(draft, scheme); !stands)
        return error_answer(stands.error());
    }
    const auto head =
        garden.file().write(command, source.text(), title_of(draft), edit_says(body, done->made));
    return told(garden, head, done->made, &done->document);
  });
}

Answer step(OpenGarden::Held& garden, const Request& request) {
  return change(request, [&](const Json& body, const store::Command& command) {
    const std::string step = body.value("step", "");
    if (step == "undo") return told(garden, garden.file().undo(command));
    if (step == "redo") return told(garden, garden.file().redo(command));
    if (step == "name") return told(garden, garden.file().name(command, body.value("name", "")));
    if (step == "bring_back" && body.contains("revision") && body["revision"].is_number_integer())
      return told(garden, garden.file().bring_back(command, body["revision"].get<std::int64_t>()));
    return error_answer({ErrorCode::kWrongUse, "/step", "No such step.", ""});
  });
}

Answer revisions_of(OpenGarden::Held& garden) {
  constexpr int kMost = 200;
  const auto revisions = garden.file().revisions(kMost);
  if (!revisions) return error_answer(revisions.error());
  Json rows = Json::array();
  for (const store::Revision& revision : *revisions)
    rows.push_back({{"id", revision.id},
                    {"says", revision.says},
                    {"made", revision.made},
                    {"name", revision.name}});
  return json_answer({{"head", head_json(garden)}, {"revisions", rows}});
}

Answer document_of(OpenGarden::Held& garden, const std::string& id) {
  return {200, "application/toml", garden.text(), id + ".toml"};
}

namespace {

const char* type_name(garden::ValueType type) {
  using T = garden::ValueType;
  constexpr std::pair<T, const char*> kNames[] = {{T::kNumber, "number"},
                                                  {T::kWhole, "whole"},
                                                  {T::kShare, "share"},
                                                  {T::kLength, "length"},
                                                  {T::kStem, "stem"},
                                                  {T::kAngle, "angle"},
                                                  {T::kTemperature, "temperature"},
                                                  {T::kText, "text"},
                                                  {T::kYesNo, "yes_no"},
                                                  {T::kDate, "date"},
                                                  {T::kDay, "day"},
                                                  {T::kId, "id"},
                                                  {T::kReference, "reference"},
                                                  {T::kChoice, "choice"},
                                                  {T::kWord, "word"},
                                                  {T::kFreeWord, "free_word"},
                                                  {T::kPlace, "place"},
                                                  {T::kLine, "line"},
                                                  {T::kOutline, "outline"},
                                                  {T::kSpot, "spot"},
                                                  {T::kSize, "size"},
                                                  {T::kHorizonPoint, "horizon_point"},
                                                  {T::kAmount, "amount"},
                                                  {T::kTimeZone, "time_zone"},
                                                  {T::kList, "list"},
                                                  {T::kOneOrMany, "one_or_many"},
                                                  {T::kRecord, "record"},
                                                  {T::kMap, "map"},
                                                  {T::kTie, "tie"},
                                                  {T::kReading, "reading"}};
  for (const auto& [of, name] : kNames)
    if (of == type) return name;
  return "text";
}

Json key_json(const garden::KeySchema& key);

Json type_json(const garden::TypeSchema& type) {
  Json json = {{"type", type_name(type.type)}};
  if (std::isfinite(type.low)) json["low"] = type.low;
  if (std::isfinite(type.high)) json["high"] = type.high;
  if (!type.words.empty()) json["words"] = type.words;
  if (!type.tables.empty()) json["tables"] = type.tables;
  if (!type.catalogue.empty()) json["catalogue"] = type.catalogue;
  for (const garden::KeySchema& field : type.fields) json["fields"].push_back(key_json(field));
  if (!type.item.empty()) json["item"] = type_json(type.item[0]);
  return json;
}

Json key_json(const garden::KeySchema& key) {
  Json json = type_json(key.type);
  json["name"] = key.name;
  json["called"] = garden::key_says(key.name);
  json["needed"] = key.needed;
  json["default"] = key.default_says;
  json["says"] = key.says;
  return json;
}

/// The catalogues whose words a value of the type, or a part of it, can be.
void note_catalogues(const garden::TypeSchema& type, std::set<std::string>& names) {
  if (!type.catalogue.empty()) names.insert(type.catalogue);
  for (const garden::KeySchema& field : type.fields) note_catalogues(field.type, names);
  for (const garden::TypeSchema& item : type.item) note_catalogues(item, names);
}

}  // namespace

Answer schema_answer(const Workshop& workshop) {
  Json tables = Json::array();
  std::set<std::string> names;
  for (const garden::TableSchema& table : garden::schema()) {
    Json keys = Json::array();
    for (const garden::KeySchema& key : table.keys) {
      keys.push_back(key_json(key));
      note_catalogues(key.type, names);
    }
    tables.push_back(
        {{"name", table.name}, {"thing", table.thing}, {"says", table.says}, {"keys", keys}});
  }
  Json catalogues = Json::object();
  for (const std::string& name : names)
    if (workshop.words.words_of) catalogues[name] = workshop.words.words_of(name);
  return json_answer({{"tables", tables}, {"catalogues", catalogues}});
}

}  // namespace spadework::server
