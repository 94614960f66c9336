#pragma once

#include "voltwright/diagnosis/anomaly.hpp"

#include <string>

/// Pieces that the sentence of an anomaly and its headline have in common.
namespace voltwright {

/// "fridge", "fridge or block": where the leads were.
std::string places_words(const Anomaly& anomaly);

/// "starter", "battery", as a profile names them.
std::string battery_name(Battery battery);

/// "the way out of the run fridge", "the way between battery and lamp"
std::string way_words(const OpenWay& way);

/// "the feed", "the run fridge".
std::string the_run(const std::string& name);

/// "750 mV from starter + to charger +; at most 327 mV at 28 A"
std::string beyond_words(const Anomaly& anomaly);

/// "1.2 V; at most 0.4 V at 18 A": what is lost under load; `after_figure` stands behind the first figure.
std::string lost_words(const Anomaly& anomaly, const std::string& after_figure = {});

}  // namespace voltwright
