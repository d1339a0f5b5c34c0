package tool

import (
	"strings"

	"loomwright/schematic"
)

// likeWire is what the next wire is made like: the selected wire in all, else
// the one drawn last in all but its colour, for wires of one job share a size
// and are told apart by colour. It is nil for none.
func likeWire(env Env) *schematic.Wire {
	if w := chosenWire(env); w != nil {
		return w
	}
	w := env.LastWire()
	if w == nil {
		return nil
	}
	plain := *w
	plain.Color = schematic.Color{}
	return &plain
}

// chosenWire is the first selected wire; nil for none.
func chosenWire(env Env) *schematic.Wire {
	for _, k := range env.Selection() {
		if w := env.Doc().Wire(k.ID); w != nil {
			return w
		}
	}
	return nil
}

// likeWords says what the next wire takes over, and from which: "0.75 mm² FLRY
// like W7, colour left open". It is empty where there is nothing to take over.
func likeWords(env Env) string {
	w := likeWire(env)
	if w == nil {
		return ""
	}
	var words []string
	if w.Size.Known() {
		words = append(words, w.Size.String())
	}
	if w.Insulation != "" {
		words = append(words, w.Insulation)
	}
	if !w.Color.IsZero() {
		words = append(words, w.Color.String())
	}
	if len(words) == 0 {
		return ""
	}
	text := strings.Join(words, " ") + " like " + w.Name
	if chosenWire(env) == nil {
		text += ", colour left open"
	}
	return text
}
