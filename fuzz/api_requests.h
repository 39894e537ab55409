// Text as requests, for the fuzz target of the API:
//
//   POST /api/gardens/g/edits?job=a
//   {"command": "@id", "change": @change, "scheme": "found", …}
//   ~
//   GET /api/gardens/g/sheet?scheme=found
//
// A line `~` parts them. In a body `@id` is a word that was not yet used, `@change` the garden's
// change as it is.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "server/routes.h"

namespace spadework::server {

inline int hex_digit(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  if (c >= 'A' && c <= 'F') return c - 'A' + 10;
  return -1;
}

inline std::string decoded(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool coded = text[i] == '%' && i + 2 < text.size() && hex_digit(text[i + 1]) >= 0 &&
                       hex_digit(text[i + 2]) >= 0;
    if (!coded) {
      out += text[i];
      continue;
    }
    out += static_cast<char>(hex_digit(text[i + 1]) * 16 + hex_digit(text[i + 2]));
    i += 2;
  }
  return out;
}

/// Takes what stands before the first `mark`, and leaves what stands after it.
inline std::string_view taken_to(std::string_view& text, std::string_view mark) {
  const std::size_t at = text.find(mark);
  const std::string_view before = text.substr(0, at);
  text = at == std::string_view::npos ? std::string_view() : text.substr(at + mark.size());
  return before;
}

inline Request request_in(std::string_view text) {
  std::string_view line = taken_to(text, "\n");
  Request request;
  request.method = taken_to(line, " ");
  request.path = decoded(taken_to(line, "?"));
  while (!line.empty()) {
    std::string_view pair = taken_to(line, "&");
    const std::string key = decoded(taken_to(pair, "="));
    request.query.emplace(key, decoded(pair));
  }
  request.body = text;
  return request;
}

inline std::vector<Request> requests_in(std::string_view text) {
  std::vector<Request> requests;
  while (!text.empty()) requests.push_back(request_in(taken_to(text, "\n~\n")));
  return requests;
}

inline void replace_all(std::string& text, std::string_view what, const std::string& with) {
  for (std::size_t at = text.find(what); at != std::string::npos;
       at = text.find(what, at + with.size()))
    text.replace(at, what.size(), with);
}

}  // namespace spadework::server
