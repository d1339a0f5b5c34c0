package table

import (
	"slices"
	"strings"
)

// This file knows by which words people title the columns of lists of wires.

// wireTitles returns what each column of a line of titles is, and whether the
// line is one of titles: at least two are known, and half of those filled.
func wireTitles(line []string) (columns []listColumn, ok bool) {
	known, filled := 0, 0
	used := map[int]bool{}
	for _, cell := range line {
		words, unit := titleWords(cell)
		c := listColumn{field: -1}
		for _, field := range wireWords()[words] { // the second "pin" is that of the second end
			if !used[field] {
				c = listColumn{field: field}
				break
			}
		}
		switch {
		case (c.field == lineLength || c.field == lineSlack) && !slices.Contains(areas(), unit), c.field == lineSize && slices.Contains(areas(), unit):
			c.unit = unit
		}
		if strings.TrimSpace(cell) != "" {
			filled++
		}
		if c.field >= 0 {
			known++
			used[c.field] = true
		}
		columns = append(columns, c)
	}
	return columns, known > 1 && 2*known >= filled
}

func areas() []string { return []string{"mm²", "AWG", "SAE"} }

// titleWords takes a title apart: "Length (mm)" is length in mm, "Wire no." wire.
func titleWords(cell string) (words, unit string) {
	units := map[string]string{"mm": "mm", "cm": "cm", "m": "m", "metres": "m", "meters": "m", "inch": "in", "inches": "in", "in": "in", "ft": "ft", "feet": "ft",
		"mm2": "mm²", "mm²": "mm²", "mm^2": "mm²", "sqmm": "mm²", "awg": "AWG", "sae": "SAE"}
	fields := strings.FieldsFunc(strings.ToLower(cell), func(r rune) bool { return strings.ContainsRune(" \t_-()[]/:.#,\u00a0", r) })
	if n := len(fields); n > 0 && units[fields[n-1]] != "" {
		unit = units[fields[n-1]]
		if n > 1 {
			fields = fields[:n-1]
		}
	}
	for len(fields) > 1 && slices.Contains([]string{"no", "nr", "number", "id", "name", "code", "in"}, fields[len(fields)-1]) {
		fields = fields[:len(fields)-1]
	}
	return strings.Join(fields, " "), unit
}

// wireWords gives the fields that a title can mean, the first end before the
// second.
func wireWords() map[string][]int {
	words := map[string][]int{}
	add := func(fields []int, titles ...string) {
		for _, t := range titles {
			words[t] = append(words[t], fields...)
		}
	}
	add([]int{lineWire}, "wire", "name", "id", "no", "nr", "number", "designation", "lead", "cable", "wire designation", "wire label")
	for _, end := range []struct {
		names                     []string
		part, pin, terminal, seal int
	}{
		{[]string{"from", "start", "source", "end a", "end 1", "side a", "side 1", "origin"}, lineFrom, lineFromPin, lineFromTerminal, lineFromSeal},
		{[]string{"to", "finish", "destination", "end b", "end 2", "side b", "side 2", "target"}, lineTo, lineToPin, lineToTerminal, lineToSeal},
	} {
		for _, name := range end.names {
			add([]int{end.part}, name)
			for _, what := range []string{"part", "device", "component", "connector", "item", "designation", "ref", "end"} {
				add([]int{end.part}, name+" "+what, what+" "+name)
			}
			for _, what := range pinWords() {
				add([]int{end.pin}, name+" "+what, what+" "+name, what+" at "+name)
			}
			add([]int{end.terminal}, "terminal at "+name, "crimp at "+name, name+" crimp", "crimp "+name)
			add([]int{end.seal}, "seal at "+name, name+" seal", "seal "+name)
		}
	}
	for _, what := range pinWords() {
		add([]int{lineFromPin, lineToPin}, what)
	}
	add([]int{lineFromTerminal, lineToTerminal}, "terminal", "crimp")
	add([]int{lineFromSeal, lineToSeal}, "seal")
	add([]int{lineSize}, "size", "wire size", "gauge", "wire gauge", "area", "cross section", "section", "csa", "conductor size", "awg", "sae", "mm2", "mm²", "sqmm")
	add([]int{LineColour}, "colour", "color", "col", "wire colour", "wire color", "insulation colour", "insulation color", "colour color")
	add([]int{lineInsulation}, "insulation", "insulation type", "insulation family", "type", "wire type", "cable type", "family")
	add([]int{lineLength}, "length", "wire length", "cut length", "len")
	add([]int{lineCircuit}, "circuit", "label", "function", "signal", "description", "use", "purpose", "what it is for", "what the wire is for", "what for")
	add([]int{lineLoom}, "loom", "harness", "sub harness", "subharness")
	add([]int{lineRoute}, "route", "segments")
	add([]int{lineBuilt}, "built", "build step", "status")
	add([]int{lineSlack}, "slack", "spare length")
	add([]int{lineMetal}, "conductor", "metal", "conductor metal", "material", "conductor material")
	add([]int{lineClass}, "temperature class", "temperature", "class", "rated temperature")
	add([]int{lineNotes}, "notes", "note", "remarks", "remark", "comment", "comments")
	add([]int{lineSheet}, "sheet", "page")
	return words
}

func pinWords() []string {
	return []string{"pin", "cavity", "cav", "contact", "position", "pos", "way"}
}
