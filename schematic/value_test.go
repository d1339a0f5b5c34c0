package schematic

import (
	"encoding/json"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic/geom"
)

func TestNum(t *testing.T) {
	assert.False(t, Num{}.Known())
	assert.True(t, Num{}.IsZero())
	assert.Equal(t, 7.0, Num{}.Or(7))
	assert.Equal(t, 0.0, Some(0).Or(7), "zero is known")
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		assert.False(t, Some(v).Known())
	}
	for _, c := range []struct {
		in   string
		want Num
		ok   bool
	}{
		{"0", Some(0), true}, {"-0.5", Some(-0.5), true}, {"null", Num{}, true}, {"1e9", Some(1e9), true},
		{"1e10", Num{}, false}, {"1e999", Num{}, false}, {`"5"`, Num{}, false}, {"true", Num{}, false}, {"[]", Num{}, false}, {"NaN", Num{}, false},
	} {
		n := Some(99)
		err := n.UnmarshalJSON([]byte(c.in))
		require.Equal(t, c.ok, err == nil, "%s: %v", c.in, err)
		if !c.ok {
			assert.Equal(t, Some(99), n, "a failure changes nothing")
			continue
		}
		assert.Equal(t, c.want, n)
		out, err := n.MarshalJSON()
		require.NoError(t, err)
		var back Num
		require.NoError(t, back.UnmarshalJSON(out))
		assert.Equal(t, n, back)
	}
	_, err := json.Marshal(Some(1e10))
	assert.ErrorContains(t, err, "out of range", "what cannot be read is not written")
	_, err = json.Marshal(Arg{Value: 1e10})
	assert.ErrorContains(t, err, "out of range")
}

// IEC 60757 (codes for designation of colours) gives the two-letter codes.
func TestColor(t *testing.T) {
	for in, want := range map[string]Color{
		"": {}, "BK": {"BK", ""}, "bu/rd": {"BU", "RD"}, " BU / RD ": {"BU", "RD"}, "GNYE": {"GNYE", ""}, "WH/WH": {"WH", ""},
	} {
		c, err := ParseColor(in)
		require.NoError(t, err, in)
		assert.Equal(t, want, c)
		text, err := c.MarshalText()
		require.NoError(t, err)
		var back Color
		require.NoError(t, back.UnmarshalText(text))
		assert.Equal(t, c, back)
		assert.Equal(t, c == Color{}, c.IsZero())
	}
	for _, in := range []string{"BLUE", "/RD", "BU/", "BU/RD/GN", "B", "BU RD", "ÄÖ", "/"} {
		c := Color{"BK", ""}
		assert.ErrorContains(t, c.UnmarshalText([]byte(in)), "write a code such as", in)
		assert.Equal(t, Color{"BK", ""}, c)
	}
	for _, code := range ColorCodes() {
		c, err := ParseColor(code)
		require.NoError(t, err)
		assert.Equal(t, code, c.String())
	}
}

func TestPointText(t *testing.T) {
	for in, want := range map[string]geom.Point{"[0,0]": {}, "[-25, 100000]": geom.Pt(-25, 100000), " [ 1 , 2 ] ": geom.Pt(1, 2)} {
		var p geom.Point
		require.NoError(t, json.Unmarshal([]byte(in), &p))
		assert.Equal(t, want, p)
		out, err := json.Marshal(p)
		require.NoError(t, err)
		var back geom.Point
		require.NoError(t, json.Unmarshal(out, &back))
		assert.Equal(t, p, back)
	}
	for _, in := range []string{"[]", "[1]", "[1,2,3]", "[1.5,0]", "[1e2,0]", "[100001,0]", "[0,-100001]", "[99999999999999999999,0]", "{}", "5", `"1,2"`, "[null,1]", "[true,1]"} {
		p := geom.Pt(7, 7)
		assert.Error(t, json.Unmarshal([]byte(in), &p), in)
		assert.Equal(t, geom.Pt(7, 7), p)
	}
}

func TestCompareNames(t *testing.T) {
	sorted := []string{"", "A", "F", "F1", "F01", "F2", "F2a", "F2b", "F9", "F10", "F10.2", "F10.10", "F99999999999999999999998", "F99999999999999999999999", "GND1", "W", "X1", "X1.A1"}
	for i, a := range sorted {
		for j, b := range sorted {
			got := CompareNames(a, b)
			switch {
			case i < j:
				assert.Negative(t, got, "%q before %q", a, b)
			case i > j:
				assert.Positive(t, got, "%q after %q", a, b)
			default:
				assert.Zero(t, got, "%q", a)
			}
		}
	}
	mixed := []string{"F10", "F2", "GND1", "F1", "F01"}
	slices.SortFunc(mixed, CompareNames)
	assert.Equal(t, []string{"F1", "F01", "F2", "F10", "GND1"}, mixed)
}

func TestParamValueGoesOutward(t *testing.T) {
	pin := &Pin{Name: "1", Role: "cavity", Values: map[string]float64{"ohm": 3}}
	part := &Part{Values: map[string]float64{"ohm": 2}}
	bare := &Pin{Name: "1", Role: "cavity"}
	assert.Equal(t, Some(3), plugKind.ParamValue(part, pin, "ohm"), "the pin's own value first")
	assert.Equal(t, Some(2), plugKind.ParamValue(part, bare, "ohm"), "then the part's")
	assert.Equal(t, Some(0.005), plugKind.ParamValue(&Part{}, bare, "ohm"), "then the role's default")
	assert.Equal(t, Some(1), plugKind.ParamValue(&Part{}, nil, "ohm"), "then the kind's")
	assert.Equal(t, Num{}, plugKind.ParamValue(nil, bare, "rated_amp"), "else unknown, never 0")
	assert.Equal(t, Num{}, plugKind.ParamValue(nil, nil, "no-such"))
	e := Element{Args: map[string]Arg{"ohm": {Param: "ohm"}, "volt": {Value: 0}}}
	assert.Equal(t, Some(3), plugKind.Value(part, pin, e, "ohm"))
	assert.Equal(t, Some(0), plugKind.Value(part, pin, e, "volt"))
	assert.Equal(t, Num{}, plugKind.Value(part, pin, e, "amp"))
}

func TestLibrary(t *testing.T) {
	later := &Kind{Name: "fuse", Title: "later"}
	l := NewLibrary(fuseKind, relayKind, later)
	assert.Same(t, later, l.Kind("fuse"), "of two with one name the later counts")
	assert.Equal(t, []string{"fuse", "relay"}, l.Names())
	var none *Library
	assert.Nil(t, none.Kind("fuse"))
	assert.Nil(t, none.Names())
}

func TestNextName(t *testing.T) {
	for name, want := range map[string]string{"7": "8", "A24": "A25", "B": "B2", "a9": "a10", "": "2", "x12345678901234567890": "x12345678901234567891"} {
		assert.Equal(t, want, NextName(name), name)
	}
}
