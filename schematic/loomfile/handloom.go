package loomfile

import (
	"fmt"
	"strings"

	"github.com/google/uuid"

	"loomwright/schematic"
	"loomwright/schematic/canon"
)

// loomTexts are the texts that stand for nodes and segments of one loom.
type loomTexts struct{ nodes, segments map[string][]string }

// readLooms gives nodes and segments their IDs, which are made within their
// loom: two looms may both have a node "firewall".
func (h *hand) readLooms() map[string]*loomTexts {
	looms := map[string]*loomTexts{}
	s := sectionOf(schematic.TypeLoom)
	h.each(s, func(n *canon.Node, i int) {
		at := place{s, i}
		space, err := uuid.Parse(textOf(n.Field("id")))
		if err != nil {
			return // said by identify or the decoder
		}
		lt := &loomTexts{nodes: map[string][]string{}, segments: map[string][]string{}}
		eachObject(n.Field("nodes"), func(v *canon.Node, i int) {
			h.within(v, space, "node", textOf(v.Field("name")), lt.nodes, at, fmt.Sprintf("nodes[%d].", i))
		})
		eachObject(n.Field("segments"), func(v *canon.Node, i int) {
			text := textOf(v.Field("name"))
			from, to := v.Field("from"), v.Field("to")
			if text == "" && textOf(from) != "" && textOf(to) != "" {
				text = from.Text + "-" + to.Text
			}
			path := fmt.Sprintf("segments[%d].", i)
			h.within(v, space, "segment", text, lt.segments, at, path)
			nodes := func() map[string][]string { return lt.nodes }
			h.lookUp(v.Field("from"), nodes, "node", "the loom", at, path+"from")
			h.lookUp(v.Field("to"), nodes, "node", "the loom", at, path+"to")
		})
		looms[space.String()] = lt
	})
	return looms
}

// within is identify for nodes and segments.
func (h *hand) within(n *canon.Node, space uuid.UUID, word, text string, texts map[string][]string, at place, path string) {
	id := n.Field("id")
	switch {
	case id == nil:
		if text == "" {
			h.mistakes.add(n, at.path(path+"name"), "a %s needs a name", word)
			return
		}
	case id.Kind != canon.Text:
		return
	case isUUID(id.Text):
		addText(texts, text, id.Text)
		return
	case id.Text == "":
		h.mistakes.add(id, at.path(path+"id"), "the ID is empty: leave it out, or write a short text")
		return
	default:
		text = id.Text
	}
	made := deriveIn(space, word, text).String()
	n.Set("id", canon.TextNode(made))
	addText(texts, text, made)
	addText(texts, textOf(n.Field("name")), made)
}

// inLoom resolves a node or segment in the loom that the item n belongs to.
func (h *hand) inLoom(n, f *canon.Node, at place, path string) {
	word := "segment"
	if path == "node" {
		word = "node"
	}
	h.lookUp(f, func() map[string][]string {
		lt := h.looms[strings.ToLower(textOf(n.Field("loom")))]
		switch {
		case lt == nil:
			return nil
		case word == "node":
			return lt.nodes
		}
		return lt.segments
	}, word, "its loom", at, path)
}
