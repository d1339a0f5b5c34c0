package loomfile

import (
	"errors"
	"fmt"
	"strings"

	"loomwright/schematic"
	"loomwright/schematic/canon"
	"loomwright/schematic/edit"
)

// What the text of a clip says at its top.
const (
	clipFormat  = "loomwright-clip"
	clipVersion = 1
)

// ErrNoClip is wrapped by the error for a text that is something else.
var ErrNoClip = errors.New("the clipboard holds nothing cut from a drawing")

// EncodeClip returns the text for the clipboard of a selection: what
// [edit.Clip] makes of it, in the form of a harness file. It has sheets only
// when it comes from several.
func EncodeClip(d *schematic.Doc, keys []schematic.Key, sheets ...schematic.ID) (string, error) {
	f := file{Format: clipFormat, Version: clipVersion}
	for _, it := range edit.Clip(d, keys, sheets...) {
		f.add(it)
	}
	f.sort()
	data, err := canon.Encode(&f)
	return string(data), err
}

// DecodeClip returns the items of a clip in file order, ready for [edit.Paste].
// They may name sheets and looms of the drawing they come from; all other
// references are among themselves. Kinds of the clip and of lib are known.
func DecodeClip(text string, lib *schematic.Library) ([]schematic.Item, error) {
	if !strings.Contains(text, clipFormat) {
		return nil, ErrNoClip
	}
	t, err := canon.Parse([]byte(text))
	if err != nil {
		return nil, fmt.Errorf("%w: %w", ErrNoClip, err)
	}
	if err := checkHeader(t, clipFormat, "a clip", clipVersion); err != nil {
		return nil, err
	}
	b, puts, err := collect(t)
	if err != nil {
		return nil, err
	}
	if err := b.check(selfContained(lib, puts)); err != nil {
		return nil, err
	}
	var items []schematic.Item
	for _, p := range puts {
		switch p.Key.Type {
		case schematic.TypeKind, schematic.TypeSheet, schematic.TypePart, schematic.TypeWire, schematic.TypeGroup, schematic.TypeState, schematic.TypeNote:
			items = append(items, p.Item)
		}
	}
	return items, nil
}

// selfContained returns a document of the items in which what a clip leaves
// behind is made up: empty sheets, no looms.
func selfContained(lib *schematic.Library, puts []schematic.Put) *schematic.Doc {
	d := schematic.New(lib).With(puts...)
	var more []schematic.Put
	sheet := func(id schematic.ID) {
		if d.Sheet(id) != nil {
			return
		}
		s := &schematic.Sheet{ID: id}
		more = append(more, schematic.Put{Key: s.Key(), Item: s})
	}
	for p := range d.Parts() {
		for _, v := range p.Views {
			sheet(v.Sheet)
		}
		if d.Loom(p.Loom) == nil {
			c := *p
			c.Loom, c.Node = schematic.ID{}, schematic.ID{}
			more = append(more, schematic.Put{Key: c.Key(), Item: &c})
		}
	}
	for w := range d.Wires() {
		sheet(w.Sheet)
		if d.Loom(w.Loom) == nil {
			c := *w
			c.Loom, c.Route = schematic.ID{}, nil
			more = append(more, schematic.Put{Key: c.Key(), Item: &c})
		}
	}
	for n := range d.Notes() {
		sheet(n.Sheet)
	}
	return d.With(more...)
}
