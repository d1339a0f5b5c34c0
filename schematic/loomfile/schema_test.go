package loomfile

import (
	"bytes"
	_ "embed"
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// schema is the JSON Schema of harness files, hand-written and canonical.
//
//go:embed loom.schema.json
var schema string

func compiledSchema(t *testing.T) *jsonschema.Schema {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(strings.NewReader(schema))
	require.NoError(t, err)
	c := jsonschema.NewCompiler()
	c.AssertFormat()
	require.NoError(t, c.AddResource("loom.schema.json", doc))
	s, err := c.Compile("loom.schema.json")
	require.NoError(t, err)
	return s
}

func validate(t *testing.T, s *jsonschema.Schema, data []byte) error {
	t.Helper()
	v, err := jsonschema.UnmarshalJSON(bytes.NewReader(data))
	require.NoError(t, err)
	return s.Validate(v)
}

func TestSchemaTakesWhatTheProgramWrites(t *testing.T) {
	s := compiledSchema(t)
	for seed := range uint64(40) {
		m := newMaker(t, seed)
		data, err := Encode(m.doc(t, 20))
		require.NoError(t, err)
		// The validator reads numbers with big exponents exactly; unknown
		// fields may hold numbers it refuses to.
		data = bytes.ReplaceAll(data, []byte("1e400"), []byte("1"))
		require.NoError(t, validate(t, s, data), "seed %d", seed)
	}
}

func TestSchemaTakesWhatHandsWrite(t *testing.T) {
	s := compiledSchema(t)
	for _, c := range handFiles {
		assert.NoError(t, validate(t, s, []byte(c.file)), c.name)
	}
	samples, err := filepath.Glob("testdata/*.loom.json")
	require.NoError(t, err)
	require.NotEmpty(t, samples)
	for _, name := range samples {
		data, err := os.ReadFile(name)
		require.NoError(t, err)
		assert.NoError(t, validate(t, s, data), name)
	}
}

// TestSchemaRefusesWhatReadRefuses breaks a good file in one place after
// another: both the schema and the reader have to notice.
func TestSchemaRefusesWhatReadRefuses(t *testing.T) {
	s := compiledSchema(t)
	lib := library(t)
	good := `{"format":"loomwright-harness","version":1,"info":{"system_volt":12,"limits":{"a":1}},"sheets":[{"name":"1","order":0,"width":100}],
	"kinds":[{"name":"own","pins":[{"name":"1","at":[0,0],"dir":"up"}],"elements":[{"name":"r","type":"open","a":"1","b":"#x","args":{"ohm":1}}],"sections":[{"shapes":[{"type":"line","radius":5}]}]}],
	"parts":[{"name":"F1","kind":"link","views":[{"at":[0,0],"turns":3}],"values":{"amp":5},"build":"cut","housing":{"rated_amp":4}}],
	"wires":[{"name":"W1","a":"F1.1","b":{"at":[5,5]},"via":[[1,2]],"metal":"copper","color":"BK","length_mm":4}],
	"groups":[{"name":"T1","type":"twist"}],"looms":[{"name":"L1","nodes":[{"name":"a"},{"name":"b"}],"segments":[{"from":"a","to":"b","length_mm":3}]}],
	"states":[{"name":"on","engine":"idle","set":[{"part":"F1","duty":0.5}]}],"notes":[{"at":[0,0],"text":"x","size":25}],
	"readings":[{"date":"2024-05-01","quantity":"volt","from":"F1.1","value":12.1}],
	"accepted":[{"rule":"voltage drop","items":[{"part":"F1"},{}],"value":0.52,"reason":"spare lamp"}]}`
	require.NoError(t, validate(t, s, []byte(good)))
	_, err := Decode([]byte(good), lib)
	require.NoError(t, err)
	for _, c := range [][2]string{
		{`"loomwright-harness"`, `"other"`}, {`"version":1`, `"version":0`}, {`"version":1`, `"version":"1"`}, {`"version":1,`, ``},
		{`"system_volt":12`, `"system_volt":"12"`}, {`"limits":{"a":1}`, `"limits":{"a":"1"}`}, {`"limits":{"a":1}`, `"limits":{"a":null}`},
		{`"rule":"voltage drop"`, `"rule":""`}, {`"rule":"voltage drop",`, ``}, {`"reason":"spare lamp"`, `"reason":""`}, {`"items":[{"part":"F1"},{}]`, `"items":["F1"]`},
		{`{"part":"F1"},{}`, `{"part":"F1","wire":"W1"}`}, {`{"part":"F1"},{}`, `{"part":""}`}, {`"value":0.52`, `"value":"0.52"`},
		{`"order":0`, `"order":0.5`}, {`"width":100`, `"width":-1`}, {`"width":100`, `"width":1000000`}, {`"name":"1","order"`, `"order"`},
		{`{"name":"own","pins"`, `{"pins"`}, {`"dir":"up"`, `"dir":"north"`}, {`"args":{"ohm":1}`, `"args":{"ohm":true}`}, {`"args":{"ohm":1}`, `"args":{"ohm":""}`}, {`"radius":5`, `"radius":5.5`},
		{`"name":"F1","kind"`, `"name":"","kind"`}, {`"name":"F1","kind"`, `"name":7,"kind"`}, {`"at":[0,0],"turns":3`, `"at":[0,0],"turns":4`}, {`"at":[0,0],"turns":3`, `"at":[0,0,0],"turns":3`},
		{`"at":[0,0],"turns"`, `"at":[0,100001],"turns"`}, {`"at":[0,0],"turns"`, `"at":"0,0","turns"`}, {`"build":"cut"`, `"build":"ready"`}, {`"amp":5`, `"amp":1e10`},
		{`"rated_amp":4`, `"rated_amp":-4`}, {`"a":"F1.1"`, `"a":"F1"`}, {`"a":"F1.1"`, `"a":7`}, {`"a":"F1.1"`, `"a":{"part":""}`}, {`"via":[[1,2]]`, `"via":[[1,2.5]]`}, {`"via":[[1,2]]`, `"via":{}`},
		{`"metal":"copper"`, `"metal":"tin"`}, {`"color":"BK"`, `"color":"black"`}, {`"length_mm":4`, `"length_mm":-4`}, {`"type":"twist"`, `"type":"knot"`},
		{`{"from":"a",`, `{`}, {`"length_mm":3`, `"length_mm":-3`}, {`"engine":"idle"`, `"engine":"hot"`}, {`"duty":0.5`, `"duty":1.5`}, {`"part":"F1","duty"`, `"duty"`},
		{`"size":25`, `"size":-25`}, {`"text":"x"`, `"text":1`}, {`"quantity":"volt"`, `"quantity":"watt"`}, {`"from":"F1.1"`, `"from":{"part":"F1","pin":"1","more":1}`}, {`"value":12.1`, `"value":"12.1"`},
		{`"parts":[`, `"parts":[null,`}, {`"notes":[{`, `"notes":{"a":{`},
	} {
		broken := strings.Replace(good, c[0], c[1], 1)
		require.NotEqual(t, good, broken, c[0])
		if c[0] == `"notes":[{` {
			broken = strings.Replace(broken, `"size":25}]`, `"size":25}}`, 1)
		}
		assert.Error(t, validate(t, s, []byte(broken)), "the schema takes %s", c[1])
		_, err := Decode([]byte(broken), lib)
		assert.Error(t, err, "the reader takes %s", c[1])
	}
}

// TestSchemaNamesTheFieldsOfTheModel compares both ways.
func TestSchemaNamesTheFieldsOfTheModel(t *testing.T) {
	type definition struct {
		Properties map[string]any `json:"properties"`
		OneOf      []definition   `json:"oneOf"`
	}
	var s struct {
		definition
		Defs map[string]definition `json:"$defs"`
	}
	require.NoError(t, json.Unmarshal([]byte(schema), &s))
	s.Defs["file"] = s.definition
	for what, typ := range modelTypes() {
		props := s.Defs[what].Properties
		for _, alt := range s.Defs[what].OneOf {
			if alt.Properties != nil {
				props = alt.Properties
			}
		}
		got := []string{}
		for name := range props {
			got = append(got, name)
		}
		slices.Sort(got)
		want := jsonNames(typ)
		slices.Sort(want)
		assert.Equal(t, want, got, "fields of %s", what)
	}
	for name, def := range s.Defs {
		if _, known := modelTypes()[name]; len(def.Properties) > 0 {
			assert.True(t, known, "the schema describes %s, which the model does not have", name)
		}
	}
	for _, ref := range regexp.MustCompile(`"#/\$defs/(\w+)"`).FindAllStringSubmatch(schema, -1) {
		assert.Contains(t, s.Defs, ref[1])
	}
}
