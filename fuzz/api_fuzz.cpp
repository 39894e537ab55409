// Any text as requests of the app's server, without the wire: every answer is whole and every
// refusal says why, no request is the program's own fault, and the gardens still open afterwards.
#include <unistd.h>

#include <algorithm>
#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

#include "climate/climate.h"
#include "embedded/embedded.h"
#include "fuzz/api_requests.h"
#include "fuzz/claim.h"
#include "sheets/sheets.h"

namespace spadework::server {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kMostRequests = 6;
constexpr int kMostLong = 1;  // questions in one input that take long

// Tiny, so that its light is quick, with one of most things.
constexpr std::string_view kGarden = R"(format = 1
[garden]
title = "Tiny"
latitude_deg = 48.41
longitude_deg = -4.36
time_zone = "Europe/Paris"
elevation_m = 60
[boundary]
outline = [[0, 0], [2, 0], [2, 1.5], [0, 1.5]]
[[wall]]
id = "lane-wall"
line = [[0, 0.1], [2, 0.1]]
height_m = 1.6
kind = "stone"
[[tree]]
id = "medlar"
kind = "medlar"
at = [1.5, 1]
height_m = 3
crown_width_m = 1
[[bed]]
id = "low-bed"
at = [0.2, 0.4]
size = [0.6, 0.4]
[[seat]]
id = "bench"
at = [1, 1.2]
facing = [1, 0]
status = "proposed"
[[change]]
thing = "medlar"
height_m = 2.5
)";

template <class T>
T opened(Result<T> result) {
  claim(result.has_value(), "what is inside the program is in order",
        result ? "" : result.error().message);
  return std::move(*result);
}

const facts::Catalogue& catalogue() {
  static const facts::Catalogue read = opened(facts::read_catalogue(
      {embedded_file("sources.toml"), embedded_file("trees.toml"), embedded_file("barriers.toml"),
       embedded_file("supports.toml"), embedded_file("covers.toml"), embedded_file("crops.toml"),
       embedded_file("vocabulary.toml")}));
  return read;
}

const Workshop& workshop() {
  static const climate::Stations stations =
      opened(climate::read_stations(embedded_file("stations.csv")));
  static const sheets::Fonts fonts = opened(sheets::Fonts::open(
      sheets::font_bytes([](std::string_view name) { return embedded_file(name); })));
  static const Workshop shop{
      {catalogue(), stations, "test"},
      {[](std::string_view list, std::string_view word) { return catalogue().knows(list, word); },
       [](std::string_view list) { return catalogue().names_of(list); }},
      "Spadework 0.1.0",
      fonts,
      {{"small", kGarden}},
      1};
  return shop;
}

/// A folder with one garden, `g`. Inputs that only read share it, and so the light that was
/// computed of it; one that writes leaves a fresh one behind.
class Place {
 public:
  Place() {
    const char* memory = "/dev/shm";
    std::string name = (::access(memory, W_OK) == 0 ? memory : "/tmp");
    name += "/spadework-api-fuzz-XXXXXX";
    claim(::mkdtemp(name.data()) != nullptr, "a folder to work in");
    folder_ = name;
    first_ = folder_ + "/first";
    opened(store::GardenFile::create(first_, kGarden, "Tiny", "Spadework 0.1.0"));
    make_anew();
    opened(shelf_->garden("g"));
  }
  ~Place() {
    shelf_.reset();
    fs::remove_all(folder_);
  }
  void make_anew() {
    shelf_.reset();
    fs::remove_all(gardens());
    fs::create_directory(gardens());
    fs::copy_file(first_, gardens() + "/g.garden");
    shelf_.emplace(gardens(), workshop());
  }
  [[nodiscard]] std::string gardens() const { return folder_ + "/gardens"; }
  Shelf& shelf() { return *shelf_; }

 private:
  std::string folder_, first_;
  std::optional<Shelf> shelf_;
};

Place& place() {
  static Place only;
  return only;
}

bool is_code(const std::string& name) {
  const auto& codes = all_error_codes();
  return std::any_of(codes.begin(), codes.end(),
                     [&](ErrorCode code) { return code_name(code) == name; });
}

void claim_of_error(const Json& error, const std::string& shown) {
  const bool has_part = error.contains("part");
  claim(error.is_object() && error.size() == (has_part ? 5 : 4), "an error has its parts", shown);
  for (const char* part : {"code", "where", "message", "hint"})
    claim(error.contains(part) && error[part].is_string(), "each of them words", shown);
  if (has_part)
    claim(error["part"].is_string() && error["part"].get<std::string>().starts_with("/"),
          "the part of an entry is named from its top", shown);
  claim(is_code(error["code"]), "its code is one of the list", shown);
  claim(!error["message"].get<std::string>().empty(), "it says what is wrong", shown);
}

void claim_of_refusal(const Answer& answer) {
  claim(answer.type == "application/json", "a refusal is JSON", answer.type);
  const Json json = Json::parse(answer.body, nullptr, false);
  claim(json.is_object() && json.contains("error"), "a refusal has an error", answer.body);
  claim_of_error(json["error"], answer.body);
  if (json.contains("problems"))
    for (const Json& problem : json["problems"]) claim_of_error(problem, answer.body);
}

void claim_of_bytes(const std::string& body) {
  const auto byte = [&](std::size_t i) -> std::size_t {
    return static_cast<unsigned char>(body[i]);
  };
  claim(body.size() >= 4, "bytes begin with the head's length");
  const std::size_t head = byte(0) | byte(1) << 8 | byte(2) << 16;
  claim(body.size() >= 4 + head, "the head is there");
  const Json json = Json::parse(body.substr(4, head), nullptr, false);
  claim(json.is_object(), "the head is JSON", body.substr(4, head));
  const std::size_t cells = json["columns"].get<std::size_t>() * json["rows"].get<std::size_t>();
  claim(body.size() - 4 - head == cells * (json.contains("cell_m") ? 2 : 4), "each cell is there");
}

void claim_of_answer(const Answer& answer) {
  constexpr int kMay[] = {200, 201, 400, 403, 404, 409, 413, 422};
  claim(std::find(std::begin(kMay), std::end(kMay), answer.status) != std::end(kMay),
        "a status that a request can have", std::to_string(answer.status) + answer.body);
  if (answer.status >= 400) return claim_of_refusal(answer);
  if (answer.type == "application/json")
    claim(!Json::parse(answer.body, nullptr, false).is_discarded(), "an answer is JSON",
          answer.body);
  const bool to_save = !answer.file_name.empty();  // a file of the garden, as it came in
  if (answer.type == "application/octet-stream" && !to_save) claim_of_bytes(answer.body);
  if (answer.type == "image/svg+xml") claim(answer.body.starts_with("<"), "a picture is one");
}

bool takes_long(const Request& request) {
  static constexpr std::string_view kLong[] = {"band",    "field", "places", "takers", "inks",
                                               "picture", "table", "print",  "try"};
  const std::string last = request.path.substr(request.path.find_last_of('/') + 1);
  return std::find(std::begin(kLong), std::end(kLong), last) != std::end(kLong);
}

std::int64_t change_now() {
  const auto garden = place().shelf().garden("g");
  if (!garden) return 1;  // taken off the shelf
  const auto held = (*garden)->hold();
  return held ? held->head().change : 1;
}

void fill_in(Request& request) {
  static int used = 0;
  if (request.body.find('@') == std::string::npos) return;
  replace_all(request.body, "@change", std::to_string(change_now()));
  replace_all(request.body, "@id", "id-" + std::to_string(++used));
}

/// Every garden on the shelf is whole, and its document can be read.
void claim_gardens_open() {
  const auto paths = store::gardens_in(place().gardens());
  claim(paths.has_value(), "the folder is there");
  for (const std::string& path : *paths) {
    const auto garden = OpenGarden::open(path, workshop());
    claim(garden.has_value(), "a garden still opens", garden ? "" : garden.error().message);
    auto held = (*garden)->hold();
    claim(held.has_value(), "and can be asked");
    claim(held->file().is_whole().value_or(false), "and its file is whole");
  }
}

void fuzz(std::string_view text) {
  std::vector<Request> requests = requests_in(text);
  if (requests.size() > kMostRequests) requests.resize(kMostRequests);
  bool wrote = false;
  int long_ones = 0;
  for (Request& request : requests) {
    if (takes_long(request) && ++long_ones > kMostLong) continue;
    if (request.path.ends_with("/changes")) request.query["change"] = "-1";  // it would wait
    fill_in(request);
    claim_of_answer(answer(place().shelf(), workshop(), request));
    wrote = wrote || request.method == "POST";
  }
  if (!wrote) return;
  claim_gardens_open();
  place().make_anew();
}

}  // namespace
}  // namespace spadework::server

/// What the libraries for letters keep to the end.
extern "C" const char* __lsan_default_suppressions() {  // NOLINT: the sanitizer's name
  return "leak:libfontconfig\nleak:libpango\nleak:libglib\n";
}

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  spadework::server::fuzz({reinterpret_cast<const char*>(data), size});
  return 0;
}
