#include "server/answers.h"

namespace spadework::server {

Answer json_answer(const Json& json, int status) {
  // What is no UTF-8 (a file's name) must not end the program.
  return {status, "application/json", json.dump(-1, ' ', false, Json::error_handler_t::replace),
          ""};
}

Json error_json(const Error& error) {
  Json json = {{"code", code_name(error.code)},
               {"where", error.where},
               {"message", error.message},
               {"hint", error.hint}};
  if (!error.part.empty()) json["part"] = error.part;
  return json;
}

int http_status(ErrorCode code) {
  switch (code) {
    case ErrorCode::kWrongUse:
      return 400;
    case ErrorCode::kReadOnly:
      return 403;
    case ErrorCode::kUnknownId:
      return 404;
    case ErrorCode::kStale:
    case ErrorCode::kConflict:
      return 409;
    case ErrorCode::kTooLarge:
      return 413;
    case ErrorCode::kCannotRead:
    case ErrorCode::kNewerFile:
      return 500;
    case ErrorCode::kCannotWrite:
      return 507;
    default:
      return 422;
  }
}

Answer error_answer(int status, const Error& error, const std::vector<Error>& problems) {
  Json json = {{"error", error_json(error)}};
  if (!problems.empty()) {
    json["problems"] = Json::array();
    for (const Error& problem : problems) json["problems"].push_back(error_json(problem));
  }
  return json_answer(json, status);
}

Answer error_answer(const Error& error, const std::vector<Error>& problems) {
  return error_answer(http_status(error.code), error, problems);
}

}  // namespace spadework::server
