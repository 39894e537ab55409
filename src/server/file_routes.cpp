// Files beside the document: a weather file or a picture into the garden's file, and out again.
#include <algorithm>

#include "exchange/exchange.h"
#include "exchange/picture_file.h"
#include "server/routes.h"

namespace spadework::server {
namespace {

constexpr std::size_t kLongestName = 120;

/// What a document can name.
bool is_plain(const std::string& name) {
  return !name.empty() && name.size() <= kLongestName && name.front() != '.' &&
         std::all_of(name.begin(), name.end(), [](char c) {
           const auto code = static_cast<unsigned char>(c);
           return code >= 0x20 && code != 0x7f && c != '/' && c != '\\' && c != ':' && c != '"';
         });
}

Answer take_picture(OpenGarden::Held& garden, const std::string& name, const std::string& bytes) {
  const auto head = exchange::picture_head(bytes);
  if (!head) return error_answer(head.error(), {head.error()});
  const auto kept = garden.file().attach(name, bytes);
  if (!kept) return error_answer(kept.error());
  return json_answer({{"name", *kept},
                      {"width_px", head->width_px},
                      {"height_px", head->height_px},
                      {"notes", Json::array()}},
                     201);
}

}  // namespace

Answer file_of(OpenGarden::Held& garden, const Request& request) {
  const std::string name = word_of(request, "name", "");
  auto bytes = garden.file().attachment(name);
  if (!bytes) return error_answer(bytes.error());
  const auto picture = exchange::picture_head(*bytes);
  const char* type = picture ? exchange::media_type(picture->kind) : "application/octet-stream";
  return {200, type, std::move(*bytes), name};
}

Answer take_file(OpenGarden::Held& garden, const Request& request) {
  const std::string name = word_of(request, "name", "");
  if (!is_plain(name))
    return error_answer({ErrorCode::kImpossibleValue, "", "The file needs another name.",
                         "A plain one, such as days.csv: without / \\ : and \", with no dot first, "
                         "and at most 120 letters long."});
  if (exchange::begins_as_picture(request.body)) return take_picture(garden, name, request.body);
  const auto weather = exchange::read_weather(request.body, name);
  if (!weather) return error_answer(weather.error(), {weather.error()});
  const auto kept = garden.file().attach(name, request.body);
  if (!kept) return error_answer(kept.error());
  return json_answer({{"name", *kept}, {"days", weather->days.size()}, {"notes", weather->notes}},
                     201);
}

}  // namespace spadework::server
