package draw

import (
	"loomwright/calc/unit"
	"loomwright/schematic"
)

// Options say how a sheet is drawn. They compare with ==; the zero value is
// the plain drawing.
type Options struct {
	// NoHops draws crossing wires straight, without the little bridges.
	NoHops bool
	// Show is how conductor sizes are written on wires.
	Show unit.Show
	// Live is what computation adds to the drawing; nil is nothing. It must
	// not change once drawn: make a new one instead.
	Live *Live
	// Under is painted below everything but the frame; nil is nothing. The
	// pointer does not find it. See [Ghost].
	Under *List
}

// Live is what the drawing shows of computed results.
type Live struct {
	// State is the operating state that currents and volts belong to; it is
	// written in the corner of the sheet. Empty writes nothing.
	State string
	// Currents are the tags on wires, by wire.
	Currents map[schematic.ID]Current
	// Trace lights up items: wires get a glow, parts an outline.
	Trace map[schematic.Key]bool
	// Spots are short texts at pins, the volts of a trace.
	Spots []Spot
	// Severity marks items that have findings.
	Severity map[schematic.Key]Severity
}

// Current is the tag on a wire.
type Current struct {
	Text string // "4.2 A"
	Flow Flow
}

// Flow is the way a current runs.
type Flow int8

const (
	NoFlow Flow = iota // no arrow
	AToB
	BToA
)

// Spot is a short text at a pin, shown at every view of the pin on the sheet.
type Spot struct {
	Pin  schematic.PinRef
	Text string // "11.8 V"
}

// Level is how grave a mark is.
type Level uint8

const (
	Info  Level = iota // ring with a dot
	Warn               // triangle with a bar
	Error              // square on its corner with a cross
)

// Severity is a mark at an item. Its shape and its word say the same, so that
// colour alone never carries the meaning.
type Severity struct {
	Level Level
	Word  string // empty: "note", "warning" or "error"
}
