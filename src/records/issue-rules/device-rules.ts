import { rule } from "./rule.ts";

/** Faults of devices: how they were used, read and typed, against the kit file. */
export const DEVICE_RULES = {
  repeat_without_invalid: rule(
    "warning",
    "a device was repeated although the first result was valid; the first counts",
    "check the attempt number; repeats are for invalid results",
  ),
  too_many_attempts: rule(
    "warning",
    "more devices were used on the specimen than the kit file allows; the row is not analysed",
    "check the attempt number",
  ),
  drops_out_of_range: rule(
    "warning",
    "the number of buffer drops is outside what the kit file allows",
    "check the entry; if right, it is a deviation from the instructions",
  ),
  volume_out_of_range: rule(
    "warning",
    "the specimen volume is outside what the kit file allows",
    "check the entry; if right, it is a deviation from the instructions",
  ),
  fahrenheit: rule(
    "warning",
    "a room temperature above 60 °C: was it entered in degrees Fahrenheit?",
    "write degrees Celsius",
  ),
  temperature_out_of_range: rule(
    "note",
    "the room temperature is outside the kit's working range",
    "check the entry; if right, it is a deviation from the instructions",
  ),
  lot_of_other_kit: rule(
    "warning",
    "the device's lot is, by the lots table, a lot of another kit",
    "correct the lot or the kit of the device; the kit given in its own row was used",
  ),
  specimen_not_of_kit: rule(
    "warning",
    "the kit file does not name the device's specimen type; the row is not analysed",
    "check specimen and kit; if the kit accepts the type, add it to the kit file",
  ),
  expired_lot: rule(
    "warning",
    "the device was used after its lot had expired",
    "check the dates; if right, it is a deviation that the report must name",
  ),
  untrained_operator: rule(
    "warning",
    "the operator used the device before the day of training",
    "check the dates; if right, it is a deviation that the report must name",
  ),
  typed_reactive_without_control: rule(
    "warning",
    "the result was typed as reactive although the control line was absent: by the instructions it is invalid",
    "nothing need be done to the data: the result is derived from the lines; retrain the reader",
  ),
  typed_result_differs: rule(
    "note",
    "the typed result is not what the reader's own lines give by the kit file",
    "nothing need be done to the data: the result is derived from the lines",
  ),
  recorded_invalid_but_lines_valid: rule(
    "warning",
    "the device was recorded as invalid although its lines give a valid result; it counts as invalid",
    "take the invalid reason out if the device was sound",
  ),
  missing_invalid_reason: rule(
    "note",
    "the lines give an invalid result and no reason was recorded",
    "fill in invalid_reason",
  ),
  typed_without_lines: rule(
    "warning",
    "a result was typed for a reading of which there are no lines",
    "add the rows of the lines; a typed result alone is not analysed",
  ),
  no_reading: rule(
    "warning",
    "the device has neither a reading nor a recorded reason for being invalid",
    "add the reading, or the reason",
  ),
} as const;
