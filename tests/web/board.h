// A loin measured, planned and cut by an invented cook.
#pragma once
#include <string>

#include "fake_host.h"

namespace tallyblock::test {

inline void type_length(Rig& rig, const std::string& subject, const std::string& digits) {
  rig.enter(FieldKind::length, digits, subject);
}

// Digits for whatever the app asks for now.
inline void answer(Rig& rig, const std::string& digits) {
  rig.type(digits);
  ask::enter(*rig);
  rig.pump();
}

// On the screen "where to cut": the length, then width and depth of the first face.
inline void measure_first_face(Rig& rig, const std::string& length, const std::string& width,
                               const std::string& depth) {
  ask::go(*rig, Screen::cut);
  type_length(rig, "piece", length);
  answer(rig, width);
  answer(rig, depth);
}

// A loin of 5.2 kg, 600 mm long, 130 x 80 mm at the first face, 110 x 70 mm at the other end.
inline void measure_loin(Rig& rig, const std::string& target = "180") {
  rig.enter(FieldKind::drained, "5200");
  rig.enter(FieldKind::target, target, "portions");
  measure_first_face(rig, "600", "130", "80");
  type_length(rig, "width:600 mm", "110");
  answer(rig, "70");
}

}  // namespace tallyblock::test
