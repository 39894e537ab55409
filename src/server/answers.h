// What the server answers, whatever it was asked. For the server room alone.
#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "base/result.h"

namespace spadework::server {

using Json = nlohmann::json;

struct Answer {
  int status = 200;
  std::string type = "application/json";
  std::string body;
  std::string file_name;  // not empty: to be saved under this name
};

[[nodiscard]] Answer json_answer(const Json& json, int status = 200);
/// One shape of error everywhere: `error{code, where, message, hint}` and, where a document has
/// problems, `problems[]` of the same shape.
[[nodiscard]] Answer error_answer(const Error& error, const std::vector<Error>& problems = {});
[[nodiscard]] Answer error_answer(int status, const Error& error,
                                  const std::vector<Error>& problems = {});
[[nodiscard]] int http_status(ErrorCode code);
[[nodiscard]] Json error_json(const Error& error);

}  // namespace spadework::server
