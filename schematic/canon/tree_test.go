package canon_test

import (
	"bytes"
	"io"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic/canon"
)

func TestTreeCanBeReworked(t *testing.T) {
	tree, err := canon.Parse([]byte("{\n\"old\": 5,\n\"list\": [{}, {\"a b\": [1, 2]}],\n\"name\": \"x\"}"))
	require.NoError(t, err)
	root := &tree.Root
	assert.Equal(t, "2", root.Find(`list[1]["a b"][1]`).Text)
	assert.Equal(t, 3, tree.Line(root.Find(`list[1]["a b"][1]`)))
	assert.Equal(t, canon.List, root.Find("list[7].deeper").Kind, "the last value on the path that is there")
	assert.Equal(t, canon.Object, root.Find("nothing").Kind)
	assert.Nil(t, root.Field("nothing"))
	assert.Nil(t, (*canon.Node)(nil).Field("x"))
	assert.Nil(t, root.Field("name").Field("x"))

	old, ok := root.Remove("old")
	require.True(t, ok)
	_, ok = root.Remove("old")
	assert.False(t, ok)
	root.Set("turns", old)
	root.Set("turns", canon.IntNode(7))
	root.Field("name").Become(canon.TextNode("y"))
	root.Field("list").Kids[0].Set("made", canon.ObjectNode(canon.TextNode("z").Named("deep")))
	made := root.Find("list[0].made.deep")
	assert.Equal(t, "z", made.Text)
	assert.Equal(t, 3, tree.Line(made), "what is made stands where its object stood")
	assert.Equal(t, "line 3, column 10: list[0]: wrong", tree.Errorf(made, "list[0]", "wrong").Error())

	var got struct {
		Turns int    `json:"turns"`
		Name  string `json:"name"`
		List  []sub  `json:"list"`
	}
	require.NoError(t, tree.Decode(&got))
	assert.Equal(t, 7, got.Turns)
	assert.Equal(t, "y", got.Name)
	assert.Equal(t, `{"deep":"z"}`, string(got.List[0].Extra["made"]))
	assert.Equal(t, `[1,2]`, string(got.List[1].Extra["a b"]))
}

func TestSetDoesNotTouchNeighbours(t *testing.T) {
	tree, err := canon.Parse([]byte(`[{"a":1},{"b":2}]`))
	require.NoError(t, err)
	for i := range tree.Root.Kids {
		tree.Root.Kids[i].Set("c", canon.IntNode(i))
	}
	var got []map[string]int
	require.NoError(t, tree.Decode(&got))
	assert.Equal(t, []map[string]int{{"a": 1, "c": 0}, {"b": 2, "c": 1}}, got)
}

func TestManyFields(t *testing.T) {
	var b strings.Builder
	for i := range 100 {
		b.WriteString(`"f` + strings.Repeat("x", i) + `":1,`)
	}
	require.NoError(t, canon.Decode([]byte("{"+strings.TrimSuffix(b.String(), ",")+"}"), &map[string]int{}))
	err := canon.Decode([]byte("{"+b.String()+`"fxxx":2}`), &map[string]int{})
	assert.ErrorContains(t, err, "fxxx: the field stands here a second time, first on line 1")
}

func TestReadAll(t *testing.T) {
	for _, in := range []string{"", "{}", " \n[1]", "\ufeff{}", `{"a":"` + strings.Repeat("x", 10_000) + `"}`} {
		got, err := canon.ReadAll(iotest.OneByteReader(strings.NewReader(in)))
		require.NoError(t, err)
		assert.Equal(t, in, string(got))
	}
	for in, want := range map[string]string{
		"hello": "begins with 'h'", "\x89PNG": "this is not a JSON file", "\xfe\xff\x00{": "save it as UTF-8", "  5": "begins with '5'",
	} {
		_, err := canon.ReadAll(strings.NewReader(in))
		assert.ErrorContains(t, err, want)
	}
	_, err := canon.ReadAll(iotest.ErrReader(io.ErrNoProgress))
	assert.ErrorIs(t, err, io.ErrNoProgress)
	large := io.MultiReader(strings.NewReader("{"), bytes.NewReader(make([]byte, canon.MaxBytes)))
	_, err = canon.ReadAll(large)
	assert.ErrorContains(t, err, "larger than 64 MiB")
}

// FuzzDecode decodes anything into a struct with every sort of field: no panic,
// and what is read keeps its canonical form.
func FuzzDecode(f *testing.F) {
	f.Add([]byte(`{"id":"` + sampleID + `","name":"x","length_mm":1.5,"size":"AWG 18","color":"BU/RD","arg":"a","at":[1,2],"via":[[0,0]],"values":{"a":1},"subs":[{"a":"b","z":[1.0]}],"ptrs":[{}],"raw":{"k":[1]},"later":{"k":null}}`))
	f.Add([]byte(`{"note":"\ud83d\ude00\n","turns":-3,"on":true,"strict":{"a":""}}`))
	f.Add([]byte("\ufeff[1e5,-0.0,\"\\u0000\"]"))
	f.Fuzz(func(t *testing.T, data []byte) {
		var s sample
		if canon.Decode(data, &s) != nil {
			return
		}
		out, err := canon.Encode(&s)
		require.NoError(t, err)
		var back sample
		require.NoError(t, canon.Decode(out, &back))
		require.Equal(t, s, back)
		again, err := canon.Encode(&back)
		require.NoError(t, err)
		require.Equal(t, string(out), string(again))
	})
}
