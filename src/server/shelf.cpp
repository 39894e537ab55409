#include "server/shelf.h"

#include <fmt/format.h>
#include <sys/stat.h>

#include <algorithm>
#include <cstdio>

namespace spadework::server {
namespace {

constexpr const char* kTakenOff = ".taken-off";

bool is_there(const std::string& path) {
  struct stat info {};
  return ::stat(path.c_str(), &info) == 0;
}

std::string id_of(const std::string& path) {
  const std::size_t slash = path.find_last_of('/');
  std::string name = slash == std::string::npos ? path : path.substr(slash + 1);
  name.resize(name.size() - std::string_view(store::kFileEnding).size());
  return name;
}

std::string title_in(const garden::Draft& draft) {
  const garden::Entry* garden = draft.single("garden");
  const garden::Value* title = garden == nullptr ? nullptr : garden->find("title");
  return title == nullptr || title->text() == nullptr ? "Garden" : *title->text();
}

tl::unexpected<Error> no_such(const std::string& id) {
  return fail(ErrorCode::kUnknownId, "", fmt::format("There is no garden “{}” here.", id),
              "It may have been taken off the shelf in another window.");
}

}  // namespace

bool is_garden_id(const std::string& id) {
  return !id.empty() && id.size() <= 200 && id.front() != '.' &&
         std::all_of(id.begin(), id.end(), [](char c) {
           return c != '/' && c != '\\' && static_cast<unsigned char>(c) >= 0x20;
         });
}

Shelf::Shelf(std::string folder, const Workshop& workshop)
    : folder_(std::move(folder)), workshop_(workshop) {}

std::string Shelf::path_of(const std::string& id) const {
  return folder_ + "/" + id + store::kFileEnding;
}

Result<Json> Shelf::list() {
  const auto paths = store::gardens_in(folder_);
  if (!paths) return tl::unexpected<Error>(paths.error());
  Json gardens = Json::array();
  for (const std::string& path : *paths) {
    Json row = {{"id", id_of(path)},
                {"title", id_of(path)},
                {"changed", nullptr},
                {"read_only", false},
                {"error", nullptr}};
    auto file = store::GardenFile::open(path, workshop_.program);
    const auto head = file ? file->head() : Result<store::Head>(tl::unexpected(file.error()));
    if (head) {
      row["title"] = head->title;
      row["changed"] = head->made;
      row["read_only"] = file->read_only();
    } else {
      row["error"] = error_json(head.error());
    }
    gardens.push_back(std::move(row));
  }
  Json examples = Json::array();
  for (const Example& example : workshop_.examples) {
    const auto read = document::read_document(example.text, example.name, workshop_.words);
    examples.push_back({{"id", example.name}, {"title", title_in(read.draft)}});
  }
  return Json{{"folder", folder_}, {"gardens", gardens}, {"examples", examples}};
}

Result<std::shared_ptr<OpenGarden>> Shelf::garden(const std::string& id) {
  if (!is_garden_id(id)) return no_such(id);
  const std::scoped_lock lock(mutex_);
  const std::string path = path_of(id);
  if (!is_there(path)) {
    open_.erase(id);
    return no_such(id);
  }
  if (const auto found = open_.find(id); found != open_.end()) return found->second;
  auto garden = OpenGarden::open(path, workshop_);
  if (garden) open_[id] = *garden;
  return garden;
}

Result<std::string> Shelf::add_as(const std::string& path, const std::string& text,
                                  std::vector<Error>& problems) {
  auto read = document::read_document(text, "the document", workshop_.words);
  if (!read.problems.empty()) {
    problems = std::move(read.problems);
    return tl::unexpected<Error>(problems.front());
  }
  if (auto made = store::make_folder(folder_); !made) return tl::unexpected<Error>(made.error());
  const std::string title = title_in(read.draft);
  const std::string to = path.empty() ? store::free_path(folder_, title) : path;
  const auto file = store::GardenFile::create(to, text, title, workshop_.program);
  if (!file) return tl::unexpected<Error>(file.error());
  return id_of(to);
}

Result<std::string> Shelf::add(const std::string& text, std::vector<Error>& problems) {
  if (text.starts_with("SQLite format 3")) {
    return fail(ErrorCode::kWrongType, "", "That is a garden’s own file, not its document.",
                fmt::format("Put it into {}: it stands on the shelf then.", folder_));
  }
  const std::scoped_lock lock(mutex_);
  return add_as("", text, problems);
}

Result<std::string> Shelf::look_into(const std::string& name, bool afresh) {
  const auto example = std::find_if(workshop_.examples.begin(), workshop_.examples.end(),
                                    [&](const Example& one) { return one.name == name; });
  if (example == workshop_.examples.end()) return no_such(name);
  const std::scoped_lock lock(mutex_);
  const bool has_copy = is_there(path_of(name));
  if (has_copy && !afresh) return name;
  std::vector<Error> problems;
  return add_as(has_copy ? "" : path_of(name), std::string(example->text), problems);
}

Result<std::string> Shelf::take_off(const std::string& id) {
  const std::scoped_lock lock(mutex_);
  if (!is_garden_id(id) || !is_there(path_of(id))) return no_such(id);
  if (const auto found = open_.find(id); found != open_.end()) {
    found->second->close();
    open_.erase(found);
  }
  std::string to = id;
  for (int n = 2; is_there(path_of(to) + kTakenOff); ++n) to = fmt::format("{}-{}", id, n);
  if (std::rename(path_of(id).c_str(), (path_of(to) + kTakenOff).c_str()) != 0) {
    return fail(ErrorCode::kCannotWrite, path_of(id),
                fmt::format("{} cannot be taken off the shelf.", path_of(id)),
                "May the folder be written to?");
  }
  return to;
}

Result<bool> Shelf::put_back(const std::string& id) {
  const std::scoped_lock lock(mutex_);
  if (!is_garden_id(id) || !is_there(path_of(id) + kTakenOff)) return no_such(id);
  if (is_there(path_of(id)))
    return fail(ErrorCode::kConflict, path_of(id),
                fmt::format("There is another garden “{}” by now.", id),
                "Take that one off the shelf first.");
  if (std::rename((path_of(id) + kTakenOff).c_str(), path_of(id).c_str()) != 0)
    return fail(ErrorCode::kCannotWrite, path_of(id), "It cannot be put back.",
                "May the folder be written to?");
  return true;
}

void Shelf::close() {
  const std::scoped_lock lock(mutex_);
  for (const auto& [id, garden] : open_) garden->close();
}

}  // namespace spadework::server
