// What a new session begins with, and the app's settings for new pieces.
#pragma once
#include <optional>
#include <string>

#include "web/app/desk/writing.h"
#include "web/app/shelf/cards.h"

namespace tallyblock {

// As the stored form of a session setting demands.
bool valid_setting(const std::string& key, const std::string& value);
// The settings with another value; none: it does not fit, or there is no such setting.
std::optional<AppSettings> with_setting(AppSettings settings, const std::string& key,
                                        const std::string& value);

// Who begins it, if the app knows a name.
void name_person(const AppSettings& settings, Writing& to);
// What of the settings for new pieces cannot be used never keeps anybody from weighing: the usual ones stand
// instead. Their names, "" if all can.
std::string begin_settings(const AppSettings& settings, Writing& to);
// Default settings and piles. The names of settings that could not be used.
std::string begin_session(const AppSettings& settings, Writing& to);
// What "same again" takes along.
void same_again(const OpenSession& from, const AppSettings& settings, Writing& to);

}  // namespace tallyblock
