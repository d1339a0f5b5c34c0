// Package catalog is the library of part kinds that comes with the program,
// and the tools to find and check kinds. Start with [Default]; [Validate]
// checks any kind, also one from a harness file.
//
// # Symbols
//
// Symbols are drawn by this project after the shapes of IEC 60617, in units of
// 0.1 mm. Current runs from top to bottom, as in the current-path drawings of
// DIN practice: supply side up, ground side down. Pins stand on the grid of 25
// and at least 50 apart; a two-pin symbol is 150 high. Moving contacts are
// shown at rest and move to the right, coils stand to the left of their
// contacts. Sensors and instruments have their pins below, like the connector
// they are. The designation stands to the right of the body, so that the wires
// above and below stay free.
//
// # Pins
//
// Pins bear DIN 72552 numbers where that standard has one. Relays follow the
// relay trade (30 common, 87 make, 87a break), not the text of DIN 72552, which
// numbers contacts otherwise. Where no standard helps, pins are 1, 2, 3 or
// + and -. Fixed pins may name a role of their kind too: it then only says what
// signal they carry.
//
// # Designation letters
//
// After IEC 81346 and workshop use, one letter where both agree:
//
//	A control units, boxes     M motors, pumps, starter
//	B sensors                  P gauges, instruments
//	E lamps, heaters, loads    Q battery isolator
//	F fuses, breakers, blocks  R resistors, terminators
//	G battery, alternator      S switches
//	H indicators, horn         T ignition coils
//	K relays, solenoids        V diodes
//	X connectors, studs, bars  Y valves, injectors
//	GND ground studs           SP splices
//	TP test points
//
// # What rules may read
//
// A few parameters are not used by any element; rules read them by name, see
// [RuleParams]. Contacts may carry the optional argument limit_amp, their
// rating. Inner nodes are shared within one part: "#rail" of a fuse block,
// "#gnd" of a control unit. The node "#metal" of ground studs is shared by all
// studs with the same Ground. Families of fuses are "mini blade", "blade",
// "maxi blade", "SF30", "SF51", "fusible link" and "circuit breaker"; where a
// fuse's resistance is not given, it follows from family and rating.
package catalog
