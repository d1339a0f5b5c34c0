package canon_test

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/google/uuid"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/calc/unit"
	"loomwright/schematic"
	"loomwright/schematic/canon"
	"loomwright/schematic/geom"
)

type sample struct {
	ID     uuid.UUID          `json:"id"`
	Name   string             `json:"name,omitempty"`
	Note   string             `json:"note"`
	Length schematic.Num      `json:"length_mm,omitzero"`
	Width  schematic.Num      `json:"width_mm"`
	Size   unit.Size          `json:"size,omitzero"`
	Color  schematic.Color    `json:"color,omitzero"`
	Arg    schematic.Arg      `json:"arg,omitzero"`
	At     geom.Point         `json:"at,omitzero"`
	Via    []geom.Point       `json:"via,omitempty"`
	Turns  int                `json:"turns,omitempty"`
	Small  int8               `json:"small,omitempty"`
	Count  uint16             `json:"count,omitempty"`
	On     bool               `json:"on,omitempty"`
	Values map[string]float64 `json:"values,omitempty"`
	Sub    *sub               `json:"sub,omitempty"`
	Subs   []sub              `json:"subs,omitempty"`
	Ptrs   []*sub             `json:"ptrs,omitempty"`
	Strict strict             `json:"strict,omitzero"`
	Raw    canon.Raw          `json:"raw,omitempty"`
	Msg    json.RawMessage    `json:"msg,omitempty"`
	Hidden string             `json:"-"`
	Extra  schematic.Extra    `json:"-"`
}

type sub struct {
	A     string            `json:"a,omitempty"`
	V     float64           `json:"v,omitempty"`
	Extra map[string][]byte `json:"-"`
}

type strict struct {
	A string `json:"a,omitempty"`
	B string `json:"b,omitempty"`
}

const sampleID = "0f8fad5b-d9cb-469f-a165-70867728950e"

func TestRoundTrip(t *testing.T) {
	in := sample{
		ID: uuid.MustParse(sampleID), Name: "F3 \"<&>\" \u2028 é 😀\n", Length: schematic.Some(-0.1), Size: unit.MM2(0.75),
		Color: schematic.Color{Base: "BU", Tracer: "RD"}, Arg: schematic.Arg{Param: "coil_ohm"}, At: geom.Pt(-25, 100),
		Via: []geom.Point{geom.Pt(0, 0), geom.Pt(25, 0)}, Turns: 3, Small: -128, Count: 65535, On: true,
		Values: map[string]float64{"b": 1e-7, "a": 1e20, "c d": math.MaxFloat64}, Sub: &sub{}, Subs: []sub{{A: "x"}, {V: 2.5}},
		Ptrs:   []*sub{{A: "y", Extra: map[string][]byte{"later": []byte(`[1.0,{"q":null}]`)}}},
		Strict: strict{A: "s"}, Raw: canon.Raw(`{"k":[1.0,1e400]}`), Msg: json.RawMessage(`[2.5,"&"]`), Hidden: "not written",
		Extra: schematic.Extra{"zz": []byte(`"kept"`), "aa": []byte(`-0`)},
	}
	out, err := canon.Encode(in)
	require.NoError(t, err)
	assert.Equal(t, `{
  "id": "0f8fad5b-d9cb-469f-a165-70867728950e",
  "name": "F3 \"<&>\" `+"\u2028"+` é 😀\n",
  "note": "",
  "length_mm": -0.1,
  "width_mm": null,
  "size": "0.75 mm2",
  "color": "BU/RD",
  "arg": "coil_ohm",
  "at": [
    -25,
    100
  ],
  "via": [
    [0, 0],
    [25, 0]
  ],
  "turns": 3,
  "small": -128,
  "count": 65535,
  "on": true,
  "values": {
    "a": 100000000000000000000,
    "b": 1e-7,
    "c d": 1.7976931348623157e+308
  },
  "sub": {},
  "subs": [
    {"a": "x"},
    {"v": 2.5}
  ],
  "ptrs": [
    {"a": "y", "later": [1.0, {"q": null}]}
  ],
  "strict": {
    "a": "s"
  },
  "raw": {
    "k": [1.0, 1e400]
  },
  "msg": [
    2.5,
    "&"
  ],
  "aa": -0,
  "zz": "kept"
}
`, string(out))

	var back sample
	require.NoError(t, canon.Decode(out, &back))
	in.Hidden = ""
	assert.Equal(t, in, back)
	line, err := canon.Compact(in)
	require.NoError(t, err)
	assert.NotContains(t, string(line), "\n")
	var again sample
	require.NoError(t, canon.Decode(line, &again))
	assert.Equal(t, in, again)
}

func TestEmptyMeansNil(t *testing.T) {
	var s sample
	require.NoError(t, canon.Decode([]byte(`{"via":[],"values":{},"subs":[],"sub":null}`), &s))
	assert.Equal(t, sample{}, s)
}

// Number forms follow ECMA-262 Number::toString, the basis of RFC 8785 (whose
// appendix B lists some of these).
func TestNumberForm(t *testing.T) {
	for _, c := range []struct {
		v    float64
		want string
	}{
		{0, "0"}, {math.Copysign(0, -1), "0"}, {1, "1"}, {-1.5, "-1.5"}, {0.30000000000000004, "0.30000000000000004"},
		{1e-6, "0.000001"}, {1e-7, "1e-7"}, {1e20, "100000000000000000000"}, {1e21, "1e+21"},
		{9007199254740992, "9007199254740992"}, {5e-324, "5e-324"}, {1.7976931348623157e308, "1.7976931348623157e+308"},
		{333333333.3333332, "333333333.3333332"}, {1e-10, "1e-10"}, {1e100, "1e+100"},
	} {
		out, err := canon.Compact(c.v)
		require.NoError(t, err)
		assert.Equal(t, c.want, string(out))
		var back float64
		require.NoError(t, canon.Decode(out, &back))
		assert.Equal(t, c.v, back)
		assert.False(t, math.Signbit(back) && back == 0)
	}
	var zero float64
	require.NoError(t, canon.Decode([]byte("-0.0"), &zero))
	assert.False(t, math.Signbit(zero), "minus zero becomes zero")
	num, err := canon.Compact(schematic.Some(math.Copysign(0, -1)))
	require.NoError(t, err)
	assert.Equal(t, "0", string(num), "numbers of a marshaller get the same form")
}

func TestLayout(t *testing.T) {
	short, long := strings.Repeat("x", 30), strings.Repeat("y", 60)
	out, err := canon.Encode(map[string]any0{"parts": {{"a": short, "b": short}, {"a": long, "b": long}}})
	require.NoError(t, err)
	assert.Equal(t, `{
  "parts": [
    {"a": "`+short+`", "b": "`+short+`"},
    {
      "a": "`+long+`",
      "b": "`+long+`"
    }
  ]
}
`, string(out))
	for _, v := range []any{map[string]string{}, []string{}, sub{}} {
		out, err := canon.Encode(v)
		require.NoError(t, err)
		assert.LessOrEqual(t, len(out), 3, "an empty value stays on one line: %s", out)
	}
}

type any0 = []map[string]string

func TestLineWidth(t *testing.T) {
	for n := 60; n < 120; n++ {
		out, err := canon.Encode(map[string]any0{"p": {{"a": strings.Repeat("x", n)}}})
		require.NoError(t, err)
		for _, line := range strings.Split(string(out), "\n") {
			if len(line) > 100 {
				assert.Contains(t, line, `"a": "`, "only what cannot be broken is longer than 100: %s", line)
				assert.NotContains(t, line, "{")
			}
		}
	}
}

func TestDecodeErrors(t *testing.T) {
	for _, c := range []struct {
		name, in, path string
		line, col      int
		text           string
	}{
		{"nothing", ``, "", 1, 1, "the file ends"},
		{"spaces", "\n\n  ", "", 3, 3, "the file ends"},
		{"not a value", `hello`, "", 1, 1, `found 'h'`},
		{"cut", "{\n \"name\": \"a", "name", 2, 10, "no closing quote"},
		{"cut after backslash", `{"name":"\`, "name", 1, 9, "no closing quote"},
		{"cut object", `{"name":"a"`, "", 1, 12, "a comma or }"},
		{"cut list", `{"via":[[1,2]`, "via", 1, 14, "a comma or ]"},
		{"no colon", `{"name" "a"}`, "name", 1, 9, "a colon"},
		{"trailing comma", `{"name":"a",}`, "", 1, 13, "a field name in double quotes"},
		{"trailing comma in list", `{"subs":[{},]}`, "subs[1]", 1, 13, "a value should stand here"},
		{"bare name", `{name:"a"}`, "", 1, 2, "a field name in double quotes"},
		{"comment", "{} // done", "", 1, 4, "more text after the end"},
		{"two values", `{}{}`, "", 1, 3, "more text after the end"},
		{"twice", "{\"name\":\"a\",\n\"name\":\"b\"}", "name", 2, 1, "second time, first on line 1"},
		{"twice deep in unknown", `{"later":[{"k":1,"k":2}]}`, "later[0].k", 1, 18, "second time"},
		{"wrong type", "{\n\t\"name\": 7}", "name", 2, 10, "a text should stand here, found a number"},
		{"wrong type of item", `{"subs":[{},[]]}`, "subs[1]", 1, 13, "an object should stand here, found a list"},
		{"wrong type of list", `{"subs":{}}`, "subs", 1, 9, "a list should stand here, found an object"},
		{"wrong type of map", `{"values":[]}`, "values", 1, 11, "an object should stand here"},
		{"text for number", `{"values":{"max amp":"5"}}`, `values["max amp"]`, 1, 22, "a number should stand here, found a text: write it without quotes, and without a unit"},
		{"bool", `{"on":1}`, "on", 1, 7, "true or false"},
		{"null", `{"name":null}`, "name", 1, 9, "leave the field out"},
		{"null item", `{"ptrs":[null]}`, "ptrs[0]", 1, 10, "an item of the list should stand here, found null"},
		{"null arg", `{"arg":null}`, "arg", 1, 8, "neither a number within"},
		{"fraction", `{"turns":1.5}`, "turns", 1, 10, "a whole number should stand here, found 1.5"},
		{"exponent", `{"turns":1e2}`, "turns", 1, 10, "a whole number"},
		{"range", `{"small":128}`, "small", 1, 10, "too large"},
		{"range of a large one", `{"turns":99999999999999999999}`, "turns", 1, 10, "too large"},
		{"negative count", `{"count":-1}`, "count", 1, 10, "a whole number"},
		{"huge", `{"values":{"a":1e999}}`, "values.a", 1, 16, "too large"},
		{"huge num", `{"width_mm":1e10}`, "width_mm", 1, 13, "out of range"},
		{"NaN", `{"width_mm":NaN}`, "width_mm", 1, 13, "found 'N'"},
		{"infinity", `{"width_mm":-Infinity}`, "width_mm", 1, 13, "not written as JSON"},
		{"hex", `{"turns":0x10}`, "turns", 1, 10, "not written as JSON"},
		{"leading zero", `{"turns":01}`, "turns", 1, 10, "not written as JSON"},
		{"plus", `{"turns":+1}`, "turns", 1, 10, "found '+'"},
		{"point", `{"width_mm":1.}`, "width_mm", 1, 13, "not written as JSON"},
		{"bad uuid", `{"id":"F3"}`, "id", 1, 7, "UUID"},
		{"bad point", `{"via":[[0,0],[1]]}`, "via[1]", 1, 15, "is not a point"},
		{"far point", `{"at":[0,100001]}`, "at", 1, 7, "within ±100000"},
		{"bad colour", `{"color":"blue"}`, "color", 1, 10, "is not a wire colour"},
		{"bad size", `{"size":"16"}`, "size", 1, 9, "conductor size"},
		{"size as number", `{"size":0.75}`, "size", 1, 9, "a text should stand here"},
		{"unknown field of a closed struct", `{"strict":{"a":"","c":1}}`, "strict.c", 1, 19, "known are a, b"},
		{"control character", "{\"name\":\"a\x01\"}", "name", 1, 11, "control character 0x01"},
		{"line break", "{\"name\":\"a\n\"}", "name", 1, 11, "control character"},
		{"bad escape", `{"name":"\q"}`, "name", 1, 10, "backslash"},
		{"bad code point", `{"name":"\u12"}`, "name", 1, 10, "not a character"},
		{"half a pair", `{"name":"\ud83d"}`, "name", 1, 10, "both halves"},
		{"wrong pair", `{"name":"\ud83dA"}`, "name", 1, 10, "both halves"},
		{"not UTF-8", "{\"name\":\"é\xff\"}", "", 1, 11, "0xff is not UTF-8"},
		{"columns count characters", `{"note":"äöü","name":1}`, "name", 1, 22, "a text"},
		{"byte order mark is no column", "\ufeff{\"name\":1}", "name", 1, 9, "a text"},
		{"depth", `{"later":` + strings.Repeat("[", 200) + strings.Repeat("]", 200) + `}`, "later" + strings.Repeat("[0]", 99), 1, 109, "nested more than 100"},
	} {
		t.Run(c.name, func(t *testing.T) {
			var s sample
			err := canon.Decode([]byte(c.in), &s)
			var e *canon.Error
			require.ErrorAs(t, err, &e)
			assert.Equal(t, c.path, e.Path)
			assert.Equal(t, [2]int{c.line, c.col}, [2]int{e.Line, e.Col}, "%s", e)
			assert.Contains(t, e.Text, c.text)
			assert.Contains(t, err.Error(), "line ")
		})
	}
}

func TestLargestNesting(t *testing.T) {
	var s sample
	in := `{"later":` + strings.Repeat("[", 99) + strings.Repeat("]", 99) + `}`
	require.NoError(t, canon.Decode([]byte(in), &s))
	assert.Equal(t, in[9:len(in)-1], string(s.Extra["later"]))
}

func TestStandardVectors(t *testing.T) {
	// RFC 8259, section 13: the two example texts, and section 7 on pairs.
	for _, in := range []string{
		`{"Image":{"Width":800,"Height":600,"Title":"View from 15th Floor","Thumbnail":{"Url":"http://www.example.com/image/481989943","Height":125,"Width":100},"Animated":false,"IDs":[116,943,234,38793]}}`,
		`[{"precision":"zip","Latitude":37.7668,"Longitude":-122.3959,"Address":"","City":"SAN FRANCISCO","State":"CA","Zip":"94107","Country":"US"}]`,
	} {
		var kept sub
		require.NoError(t, canon.Decode([]byte(`{"x":`+in+`}`), &kept))
		assert.Equal(t, in, string(kept.Extra["x"]), "an unknown field is kept as it was")
	}
	var s string
	require.NoError(t, canon.Decode([]byte(`"\uD834\uDD1E \/\b\f\n\r\t\"\\A"`), &s))
	assert.Equal(t, "\U0001D11E /\b\f\n\r\t\"\\A", s)
}

func TestEncodeErrors(t *testing.T) {
	for _, c := range []struct {
		name string
		in   any
		path string
		text string
	}{
		{"NaN", sample{Values: map[string]float64{"a": math.NaN()}}, "values.a", "NaN is not a number a file can hold"},
		{"infinite", sample{Subs: []sub{{}, {V: math.Inf(-1)}}}, "subs[1].v", "-Inf"},
		{"broken size", sample{Size: unit.Size{System: 9}}, "size", "does not exist"},
		{"broken kept text", sample{Extra: schematic.Extra{"q": []byte(`{`)}}, "q", "is not JSON text"},
		{"kept field is known", sample{Extra: schematic.Extra{"name": []byte(`1`)}}, "name", "name of a known one"},
		{"keys that fall together", sample{Values: map[string]float64{"\xff": 1, "\xfe": 1}}, "values", "two keys"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := canon.Encode(c.in)
			var e *canon.Error
			require.ErrorAs(t, err, &e)
			assert.Equal(t, c.path, e.Path)
			assert.Contains(t, e.Text, c.text)
		})
	}
	out, err := canon.Encode(sample{Note: "a\xffb"})
	require.NoError(t, err)
	assert.Contains(t, string(out), "a\ufffdb", "text that is not UTF-8 is repaired, never unsavable")
}

func TestUnsupportedTypes(t *testing.T) {
	for _, v := range []any{make(chan int), func() {}, map[int]string{}, struct{ V any }{}, struct{ C complex128 }{}, struct{ Embedded }{}} {
		_, err := canon.Encode(v)
		assert.Error(t, err, "%T", v)
	}
	assert.Error(t, canon.Decode([]byte("{}"), nil))
	assert.Error(t, canon.Decode([]byte("{}"), sample{}))
	assert.Error(t, canon.Decode([]byte("{}"), (*sample)(nil)))
}

type Embedded struct{ A string }
