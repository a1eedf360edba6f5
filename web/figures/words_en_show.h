// Units, dates and the words around figures.
#pragma once
#include "web/words/table.h"

namespace tallyblock {

inline constexpr Word kShowWords[] = {
    {"show.not-known", "not known"},
    {"show.not-yet", "not yet"},
    {"show.per", "{0} per {1}"},
    {"show.per-unit", "per {0}"},
    {"show.hour", "hour"},
    {"show.min", "min"},
    {"show.minutes", "{0} min"},
    {"show.hours-minutes", "{0} h {1} min"},
    {"show.no-date", "Time not certain"},
    {"show.date", "{0} {1} {2}, {3}"},
    {"show.date-month-first", "{1} {0}, {2}, {3}"},
    {"show.am", "{0} am"},
    {"show.pm", "{0} pm"},
    {"show.month-1", "Jan"},
    {"show.month-2", "Feb"},
    {"show.month-3", "Mar"},
    {"show.month-4", "Apr"},
    {"show.month-5", "May"},
    {"show.month-6", "Jun"},
    {"show.month-7", "Jul"},
    {"show.month-8", "Aug"},
    {"show.month-9", "Sep"},
    {"show.month-10", "Oct"},
    {"show.month-11", "Nov"},
    {"show.month-12", "Dec"},
};

}  // namespace tallyblock
