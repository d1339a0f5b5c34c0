// Package tool holds the canvas tools as pure state machines: events in, a new
// state and effects out. It knows no window, no clock and no toolkit.
//
// A [Machine] runs one tool at a time. A [State] answers an [Event] with the
// next state and a list of [Effect]s that the window performs in order; only
// [Commit] touches the document, once, at the end of a gesture.
package tool

import (
	"loomwright/schematic"
	"loomwright/schematic/draw"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
)

// State is one situation of a tool, such as "select.dragging".
type State interface {
	// Name is used by tests, the status line and error reports.
	Name() string
	// Hint tells the user what the tool expects next.
	Hint() string
	// Handle answers an event. It is pure: no drawing, no clock, no writes.
	Handle(Event, Env) (State, []Effect)
}

// Mods are the modifier keys held during an event.
type Mods uint8

const (
	ModAdd  Mods = 1 << iota // Shift: add to or remove from the selection; keep a wire straight
	ModFree                  // Alt: do not snap to grid and guides; a click takes what lies beneath, a marquee selects the other way
	ModCopy                  // Ctrl: drag a copy; a marquee takes out
)

// Event is one thing the user or the window did. The set is closed.
type Event interface{ event() }

// Press is the primary button going down. At is in sheet units; Pixels is the
// pointer in window pixels, for thresholds that are felt by hand.
type Press struct {
	At     geom.Point
	Pixels draw.Point
	Mods   Mods
	Clicks int // 2 is a double click
}

// Move is the pointer moving, with the primary button down or up.
type Move struct {
	At     geom.Point
	Pixels draw.Point
	Mods   Mods
}

// Release is the primary button coming up.
type Release struct {
	At     geom.Point
	Pixels draw.Point
	Mods   Mods
}

// KeyPress is a named editing key: "Enter", "BackSpace", "Space", "Tab", and
// "R" and "M" while a part is held.
type KeyPress struct{ Name string }

// Cancel is the Escape key, lost focus or a switch of tools.
type Cancel struct{}

// DocChanged tells that the document is another snapshot now.
type DocChanged struct{}

func (Press) event()      {}
func (Move) event()       {}
func (Release) event()    {}
func (KeyPress) event()   {}
func (Cancel) event()     {}
func (DocChanged) event() {}

// Hit is what lies under a point.
type Hit struct {
	Key  schematic.Key
	Pin  string // the pin of a part, when the point is on one
	View string // the view of a part
	// Text tells that the point is on the item's designation or label, whose
	// middle is Middle.
	Text   bool
	Middle geom.Point
	Ok     bool
}

// Env is what a tool may look at.
type Env interface {
	Doc() *schematic.Doc
	Sheet() schematic.ID
	Selection() []schematic.Key
	// Hit returns the topmost item within reach of the pointer; pins win over
	// parts, parts over wires.
	Hit(geom.Point) Hit
	// Hits returns all items within reach of the pointer, topmost first, each once.
	Hits(geom.Point) []Hit
	// In returns the items whose drawing lies inside the area (enclosed) or
	// touches it.
	In(area geom.Rect, enclosed bool) []schematic.Key
	// Snap returns the grid point a press at p means; pins within reach win.
	Snap(p geom.Point, mods Mods) geom.Point
	// LastWire returns the wire drawn last in this window, as it was when it was
	// last there; nil for none.
	LastWire() *schematic.Wire
	// Guided reports whether things on the move shall be drawn into line with
	// others.
	Guided() bool
	// DragPixels is how far the pointer must travel before a press is a drag.
	DragPixels() float64
}

// Effect is something the window does for a tool. The set is closed.
type Effect interface{ effect() }

// Select replaces the selection.
type Select struct{ Keys []schematic.Key }

// Preview shows what an edit would do without doing it: the window runs Edit on
// a throw-away transaction of the current snapshot and shows the outcome. A nil
// Edit ends the preview.
type Preview struct{ Edit func(*edit.Tx) error }

// Commit runs the edit as one step of the history.
type Commit struct {
	Label string
	Edit  func(*edit.Tx) error
}

// Band shows the marquee; an empty rectangle hides it. Touch tells which way
// it selects, Takes what it would select just now.
type Band struct {
	Area  geom.Rect
	Touch bool
	Takes []schematic.Key
}

// Ghost shows a path being drawn; nil hides it.
type Ghost struct{ Path geom.Path }

// Guides shows what a thing on the move is in line with; none hides them.
type Guides struct{ Lines []Guide }

// Mark rings points of interest: the pin a wire would end at. Nil clears.
type Mark struct{ At []geom.Point }

// Cursor asks for a pointer shape.
type Cursor struct{ Shape CursorShape }

// CursorShape is the pointer's look.
type CursorShape uint8

const (
	Arrow CursorShape = iota
	Cross
	Hand
	UpDown   // over a level stretch of a wire, which can be pushed up and down
	Sideways // over an upright one
)

// Pan moves the sheet under the pointer by this many window pixels.
type Pan struct{ By draw.Point }

// Trace asks for the circuit through a pin or wire to be lit up; a hit that is
// not Ok ends the trace.
type Trace struct{ At Hit }

// Inspect asks for an item's inspector to take the keyboard; the zero key is
// what has just been made.
type Inspect struct{ Key schematic.Key }

// Done says that the tool has finished and the window goes back to selecting.
type Done struct{}

func (Select) effect()  {}
func (Preview) effect() {}
func (Commit) effect()  {}
func (Band) effect()    {}
func (Ghost) effect()   {}
func (Guides) effect()  {}
func (Mark) effect()    {}
func (Cursor) effect()  {}
func (Pan) effect()     {}
func (Trace) effect()   {}
func (Inspect) effect() {}
func (Done) effect()    {}
