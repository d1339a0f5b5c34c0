package loomfile

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/google/uuid"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/canon"
	"loomwright/schematic/edit"
)

const top = `{"format":"loomwright-harness","version":1,`

// handFiles say the same harness in different ways.
var handFiles = []struct{ name, file string }{
	{"short", top + `"sheets":[{"name":"one"}],
		"parts":[{"name":"F1","kind":"link","views":[{"at":[0,0]}],"loom":"L1","node":"cabin"},{"name":"E.1","kind":"bulb","views":[{"at":[500,0]}]}],
		"wires":[{"name":"W1","a":"F1.2","b":"E.1.1","twist":"T1","loom":"L1","route":["cabin-fan"]},{"name":"W2","a":"E.1.2","b":{"at":[900,0]},"screen":"SC"}],
		"groups":[{"name":"T1","type":"twist"},{"name":"SC","type":"screen","drain":"W2"}],
		"looms":[{"name":"L1","nodes":[{"name":"cabin"},{"name":"fan"}],"segments":[{"from":"cabin","to":"fan"}]}],
		"states":[{"name":"off"},{"name":"on","set":[{"part":"E.1","duty":1}]}],
		"notes":[{"at":[0,0],"text":"hello"}],
		"readings":[{"date":"2024-05-01","quantity":"volt","from":"F1.1","to":{"part":"F1","pin":"2"},"state":"on","value":0.01}]}`},
	{"objects and references by name", top + `"sheets":[{"name":"one","order":0}],
		"parts":[{"name":"F1","kind":"link","views":[{"sheet":"one","at":[0,0]}],"loom":"L1","node":"cabin"},{"name":"E.1","kind":"bulb","views":[{"sheet":"one","at":[500,0]}]}],
		"wires":[{"sheet":"one","name":"W1","a":{"part":"F1","pin":"2"},"b":{"part":"E.1","pin":"1"},"twist":"T1","loom":"L1","route":["cabin-fan"]},{"sheet":"one","name":"W2","a":{"part":"E.1","pin":"2"},"b":{"at":[900,0]},"screen":"SC"}],
		"groups":[{"name":"T1","type":"twist"},{"name":"SC","type":"screen","drain":"W2"}],
		"looms":[{"name":"L1","nodes":[{"name":"cabin"},{"name":"fan"}],"segments":[{"from":"cabin","to":"fan"}]}],
		"states":[{"name":"off","order":0},{"name":"on","order":1,"set":[{"part":"E.1","duty":1}]}],
		"notes":[{"sheet":"one","at":[0,0],"text":"hello"}],
		"readings":[{"date":"2024-05-01","quantity":"volt","from":{"part":"F1","pin":"1"},"to":"F1.2","state":"on","value":0.01}]}`},
	{"texts as IDs", top + `"sheets":[{"id":"one","name":"one"}],
		"parts":[{"id":"F1","name":"F1","kind":"link","views":[{"at":[0,0]}],"loom":"L1","node":"cabin"},{"id":"E.1","name":"E.1","kind":"bulb","views":[{"at":[500,0]}]}],
		"wires":[{"id":"W1","name":"W1","a":"F1.2","b":"E.1.1","twist":"T1","loom":"L1","route":["cabin-fan"]},{"id":"W2","name":"W2","a":"E.1.2","b":{"at":[900,0]},"screen":"SC"}],
		"groups":[{"id":"T1","name":"T1","type":"twist"},{"id":"SC","name":"SC","type":"screen","drain":"W2"}],
		"looms":[{"id":"L1","name":"L1","nodes":[{"id":"cabin","name":"cabin"},{"id":"fan","name":"fan"}],"segments":[{"id":"cabin-fan","from":"cabin","to":"fan"}]}],
		"states":[{"id":"off","name":"off"},{"id":"on","name":"on","set":[{"part":"E.1","duty":1}]}],
		"notes":[{"id":"#1","at":[0,0],"text":"hello"}],
		"readings":[{"id":"#1","date":"2024-05-01","quantity":"volt","from":"F1.1","to":"F1.2","state":"on","value":0.01}]}`},
}

func TestHandFormsSayTheSame(t *testing.T) {
	lib := library(t)
	var first *schematic.Doc
	for _, c := range handFiles {
		d, err := Decode([]byte(c.file), lib)
		require.NoError(t, err, c.name)
		if first == nil {
			first = d
		}
		assert.Empty(t, edit.Diff(first, d), c.name)
		data, err := Encode(d)
		require.NoError(t, err)
		back, err := Decode(data, lib)
		require.NoError(t, err, "the canonical form of a hand-written file reads back")
		assert.Empty(t, edit.Diff(first, back))
	}
	w := first.Wire(DeriveID(schematic.TypeWire, "W1"))
	require.NotNil(t, w)
	assert.Equal(t, schematic.PinRef{Part: DeriveID(schematic.TypePart, "E.1"), Pin: "1"}, w.B.Ref(), "a designation may hold a point")
	assert.Equal(t, DeriveID(schematic.TypeSheet, "one"), w.Sheet, "the only sheet is filled in")
	assert.Len(t, first.WiresAt(schematic.PinRef{Part: DeriveID(schematic.TypePart, "F1"), Pin: "2"}), 1)
	assert.Equal(t, "on", first.States()[1].Name, "states stand in the order of the list")
}

// The IDs of hand-written files are part of the format: they may never change.
// They are UUIDs of version 5 (RFC 9562, section 5.5), computed here with
// google/uuid from the name spaces that ident.go documents.
func TestDerivedIDsStay(t *testing.T) {
	assert.Equal(t, "1bacfe38-613f-50a5-8771-68a61c92449c", DeriveID(schematic.TypePart, "E1").String())
	assert.Equal(t, "9a68f629-f58d-532f-94c9-29b3289be069", DeriveID(schematic.TypeWire, "W1").String())
	assert.NotEqual(t, DeriveID(schematic.TypePart, "1"), DeriveID(schematic.TypeWire, "1"))
	assert.Equal(t, uuid.Version(5), DeriveID(schematic.TypePart, "E1").Version())
	// RFC 9562, appendix A.4: version 5 of "www.example.com" in the DNS name space.
	assert.Equal(t, "2ed6657d-e927-568b-95e1-2665a8aea6a2", uuid.NewSHA1(uuid.NameSpaceDNS, []byte("www.example.com")).String())
}

func TestReferenceByDesignationToAnItemWithUUID(t *testing.T) {
	d, err := Decode([]byte(top+`"sheets":[{"name":"one"}],"parts":[{"id":"0F8FAD5B-d9cb-469f-a165-70867728950e","name":"F1","kind":"link","views":[{"at":[0,0]}]}],
		"wires":[{"name":"W1","a":"F1.2","b":"0f8fad5b-d9cb-469f-a165-70867728950e.1"}]}`), library(t))
	require.NoError(t, err)
	id := uuid.MustParse("0f8fad5b-d9cb-469f-a165-70867728950e")
	w := d.Wire(DeriveID(schematic.TypeWire, "W1"))
	assert.Equal(t, [2]schematic.ID{id, id}, [2]schematic.ID{w.A.Part, w.B.Part})
}

func TestUnknownKindIsNoMistake(t *testing.T) {
	d, err := Decode([]byte(top+`"sheets":[{"name":"one"}],"parts":[{"name":"Q1","kind":"later-kind","views":[{"at":[0,0]}]}],
		"wires":[{"name":"W1","a":"Q1.any","b":{"at":[0,0]}}]}`), library(t))
	require.NoError(t, err)
	assert.Equal(t, 1, d.Len(schematic.TypePart))
}

func TestMistakes(t *testing.T) {
	sheet := `"sheets":[{"name":"one"}],` + "\n"
	f1 := `"parts":[{"name":"F1","kind":"link","views":[{"at":[0,0]}]}],` + "\n"
	for _, c := range []struct {
		name, body string
		line       int
		path, text string
	}{
		{"part without a name", sheet + `"parts":[{"kind":"link"}]}`, 2, "parts[0].name", "a part needs a name"},
		{"empty id", sheet + `"parts":[{"id":"","name":"F1","kind":"link"}]}`, 2, "parts[0].id", "the ID is empty"},
		{"id of the wrong sort", sheet + `"parts":[{"id":7,"name":"F1","kind":"link"}]}`, 2, "parts[0].id", "a text should stand here"},
		{"zero id", sheet + `"parts":[{"id":"00000000-0000-0000-0000-000000000000","name":"F1","kind":"link"}]}`, 2, "parts[0].id", "an ID of zeros"},
		{"same text twice", sheet + f1 + `"wires":[{"id":"x","name":"W1","a":{},"b":{}},` + "\n" + `{"id":"x","name":"W2","a":{},"b":{}}]}`, 4, "wires[1].id", "wire W2 has the same ID as wire W1 on line 3 (wires[0])"},
		{"same name twice", sheet + `"parts":[{"name":"F1","kind":"link"},{"name":"F1","kind":"link"}]}`, 2, "parts[1].id", "same ID as part F1 on line 2 (parts[0])"},
		{"name twice, and one missing", sheet + `"parts":[{"name":"G1","kind":"link"},{"name":"G1","kind":"link"}],` + "\n" + `"wires":[{"name":"W1","a":"F1.1","b":{}}]}`, 2, "parts[1].id", "part G1 has the same ID as part G1 on line 2 (parts[0])"},
		{"name of the wrong sort", sheet + `"parts":[{"name":5,"kind":"link"}]}`, 2, "parts[0].name", "a text should stand here, found a number"},
		{"list of the wrong sort", sheet + `"parts":{},` + "\n" + `"wires":[{"name":"W1","a":"F1.1","b":{}}]}`, 2, "parts", "a list should stand here, found an object"},
		{"item of the wrong sort", sheet + `"parts":["F1"],` + "\n" + `"wires":[{"name":"W1","a":"F1.1","b":{}}]}`, 2, "parts[0]", "an object should stand here, found a text"},
		{"wire with one end", sheet + f1 + `"wires":[{"name":"W1","a":"F1.1"}]}`, 3, "wires[0].b", `a wire needs both its ends: write "b"`},
		{"designation twice", sheet + f1 + `"wires":[{"name":"F1","a":{},"b":{}}]}`, 3, "wires[0].name", "designation F1 is used twice"},
		{"unknown part", sheet + f1 + `"wires":[{"name":"W1","a":"F9.1","b":{}}]}`, 3, "wires[0].a", `there is no part "F9" in the file`},
		{"unknown part in an object", sheet + f1 + `"wires":[{"name":"W1","a":{},"b":{"part":"F9","pin":"1"}}]}`, 3, "wires[0].b.part", `there is no part "F9" in the file`},
		{"unknown UUID", sheet + f1 + `"wires":[{"name":"W1","a":{"part":"0f8fad5b-d9cb-469f-a165-70867728950e","pin":"1"},"b":{}}]}`, 3, "wires[0].a.part", "it refers to is not in the document"},
		{"unknown pin", sheet + f1 + `"wires":[{"name":"W1","a":"F1.7","b":{}}]}`, 3, "wires[0].a.pin", `F1 has no pin "7"`},
		{"end without a pin", sheet + f1 + `"wires":[{"name":"W1","a":"F1","b":{}}]}`, 3, "wires[0].a", "names no pin"},
		{"end with an empty pin", sheet + f1 + `"wires":[{"name":"W1","a":"F1.","b":{}}]}`, 3, "wires[0].a", `"F1." names no pin`},
		{"end of two meanings", sheet + `"parts":[{"name":"X1","kind":"link"},{"name":"X1.A","kind":"link"}],` + "\n" + `"wires":[{"name":"W1","a":"X1.A.1","b":{}}]}`, 3, "wires[0].a", "could mean several pins"},
		{"reference of two meanings", sheet + `"parts":[{"id":"a","name":"F1","kind":"link"},{"id":"F1","name":"F2","kind":"link","mate":"F1"}]}`, 2, "parts[1].mate", "could mean 2 different things"},
		{"no sheet", `"parts":[{"name":"F1","kind":"link","views":[{"at":[0,0]}]}]}`, 1, "parts[0].views[0].sheet", "the sheet is missing"},
		{"two sheets", `"sheets":[{"name":"a"},{"name":"b"}],` + "\n" + `"notes":[{"at":[0,0],"text":""}]}`, 2, "notes[0].sheet", "exactly one"},
		{"unknown sheet", sheet + `"notes":[{"sheet":"two","at":[0,0],"text":""}]}`, 2, "notes[0].sheet", `there is no sheet "two"`},
		{"route without a loom", sheet + `"wires":[{"name":"W1","a":{},"b":{},"route":["x"]}]}`, 2, "wires[0].route[0]", `there is no segment "x" in its loom`},
		{"unknown segment", sheet + `"looms":[{"name":"L1","nodes":[{"name":"a"},{"name":"b"}],"segments":[{"from":"a","to":"b"}]}],` + "\n" + `"wires":[{"name":"W1","a":{},"b":{},"loom":"L1","route":["a-b","b-a"]}]}`, 3, "wires[0].route[1]", `there is no segment "b-a" in its loom`},
		{"unknown node", sheet + `"looms":[{"name":"L1","nodes":[{"name":"a"}],` + "\n" + `"segments":[{"from":"a","to":"z"}]}]}`, 3, "looms[0].segments[0].to", `there is no node "z" in the loom`},
		{"node of another loom", sheet + `"looms":[{"name":"L1","nodes":[{"name":"a"}]},{"name":"L2"}],` + "\n" + `"parts":[{"name":"F1","kind":"link","loom":"L2","node":"a"}]}`, 3, "parts[0].node", `there is no node "a" in its loom`},
		{"node without a name", sheet + `"looms":[{"name":"L1",` + "\n" + `"nodes":[{"at":[0,0]}]}]}`, 3, "looms[0].nodes[0].name", "a node needs a name"},
		{"one-sided mate", sheet + `"parts":[{"name":"X1","kind":"plug","mate":"X2"},` + "\n" + `{"name":"X2","kind":"receptacle"}]}`, 2, "parts[0].mate", "X2 is not mated to X1"},
		{"unknown group", sheet + `"wires":[{"name":"W1","a":{},"b":{},"twist":"T"}]}`, 2, "wires[0].twist", `there is no wire group "T"`},
		{"empty reference", sheet + `"wires":[{"name":"W1","a":{},"b":{},"twist":""}]}`, 2, "wires[0].twist", "the reference is empty"},
		{"turns", sheet + `"parts":[{"name":"F1","kind":"link","views":[` + "\n" + `{"at":[0,0],"turns":4}]}]}`, 3, "parts[0].views[0].turns", "4 quarter turns"},
		{"wrong type deep in the file", sheet + f1 + `"info":{"links":[{},{"target":` + "\n" + `5}]}}`, 4, "info.links[1].target", "a text should stand here"},
		{"own pin without a role", sheet + `"parts":[{"name":"X1","kind":"plug","pins":[{"name":"1"}]}]}`, 2, "parts[0].pins[0].role", "no pin role"},
		{"not a list", sheet + `"parts":{}}`, 2, "parts", "a list should stand here"},
		{"not an object", sheet + `"parts":["F1"]}`, 2, "parts[0]", "an object should stand here"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d, err := Decode([]byte(top+c.body), library(t))
			require.Error(t, err)
			assert.Nil(t, d)
			var e *canon.Error
			if m := (*Mistakes)(nil); !assertAs(err, &e) && assertAs(err, &m) {
				e = m.List[0]
			}
			require.NotNil(t, e, "%v", err)
			assert.Equal(t, c.path, e.Path, "%v", err)
			assert.Equal(t, c.line, e.Line, "%v", err)
			assert.Contains(t, e.Text, c.text)
		})
	}
}

func TestMistakesAreCounted(t *testing.T) {
	var b strings.Builder
	b.WriteString(top + `"sheets":[{"name":"one"}],"parts":[`)
	for i := range 50 {
		if i > 0 {
			b.WriteByte(',')
		}
		b.WriteString("\n" + `{"id":"` + strings.Repeat("x", i+1) + `","name":"F1","kind":"link"}`)
	}
	b.WriteString("]}")
	_, err := Decode([]byte(b.String()), library(t))
	var m *Mistakes
	require.ErrorAs(t, err, &m)
	assert.Len(t, m.List, 20)
	assert.Equal(t, 29, m.More, "the first of 50 is right")
	assert.Contains(t, err.Error(), "49 mistakes in the file:\n  line ")
	assert.Contains(t, err.Error(), "and 29 more")
}

// Mistakes come in the order of the file, whatever the IDs are, and of a
// great many the first are shown, without a walk through the file for each:
// that took minutes.
func TestMistakesInFileOrder(t *testing.T) {
	var b strings.Builder
	b.WriteString(top + `"sheets":[{"name":"one"}],"wires":[`)
	const many = 100_000
	for i := range many {
		if i > 0 {
			b.WriteByte(',')
		}
		fmt.Fprintf(&b, `{"name":"W%d","a":{},"b":{},"metal":"gold"}`, i)
	}
	b.WriteString("]}")
	_, err := Decode([]byte(b.String()), library(t))
	var m *Mistakes
	require.ErrorAs(t, err, &m)
	require.Len(t, m.List, 20)
	assert.Equal(t, many-20, m.More)
	for i, e := range m.List {
		assert.Equal(t, fmt.Sprintf("wires[%d].metal", i), e.Path)
	}
}

func assertAs[E error](err error, target *E) bool { return errors.As(err, target) }
