// Package loomfile reads and writes harness files (.loom.json), the recovery
// journal beside them and the text the clipboard carries.
//
// Start with [Load] and [Save]. FORMAT.md describes the format well enough to
// write a harness by hand; loom.schema.json says the same for machines.
package loomfile

import (
	"fmt"
	"io"

	"loomwright/schematic"
	"loomwright/schematic/canon"
)

// What a harness file says at its top.
const (
	Format  = "loomwright-harness"
	Version = 1 // the version written; older ones are migrated while reading
	// Ext ends the name of a harness file.
	Ext = ".loom.json"
)

// file is the whole of a harness file, in the order it is written.
type file struct {
	Format   string                  `json:"format"`
	Version  int                     `json:"version"`
	Info     *schematic.Info         `json:"info,omitempty"`
	Sheets   []*schematic.Sheet      `json:"sheets,omitempty"`
	Kinds    []*schematic.Kind       `json:"kinds,omitempty"`
	Parts    []*schematic.Part       `json:"parts,omitempty"`
	Wires    []*schematic.Wire       `json:"wires,omitempty"`
	Groups   []*schematic.Group      `json:"groups,omitempty"`
	Looms    []*schematic.Loom       `json:"looms,omitempty"`
	States   []*schematic.State      `json:"states,omitempty"`
	Notes    []*schematic.Note       `json:"notes,omitempty"`
	Readings []*schematic.Reading    `json:"readings,omitempty"`
	Accepted []*schematic.Acceptance `json:"accepted,omitempty"`
	Extra    schematic.Extra         `json:"-"`
}

// Encode returns the canonical bytes of a document. The same document gives
// the same bytes on every system. It fails for a document with problems (see
// [schematic.Check]), because the file could not be read again.
func Encode(d *schematic.Doc) ([]byte, error) {
	// The check takes a fourth of the time and can go beside the rest.
	checked := make(chan []schematic.Problem)
	go func() { checked <- schematic.Check(d) }()
	data, err := encode(d)
	if problems := <-checked; len(problems) > 0 {
		p := problems[0]
		return nil, fmt.Errorf("%d mistakes in the drawing, the first at %s: %s: undo the last step and save again",
			len(problems), schematic.Describe(d.Get(p.At)), p)
	}
	return data, err
}

// encode is [Encode] without the check.
func encode(d *schematic.Doc) ([]byte, error) {
	f := file{Format: Format, Version: Version, Extra: d.Extra()}
	for it := range d.All() {
		f.add(it)
	}
	f.sort()
	return canon.Encode(&f)
}

// Write writes the canonical bytes of a document.
func Write(w io.Writer, d *schematic.Doc) error {
	data, err := Encode(d)
	if err != nil {
		return err
	}
	_, err = w.Write(data)
	return err
}
