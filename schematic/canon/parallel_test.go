package canon

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"reflect"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

type longItem struct {
	ID    int               `json:"id"`
	Name  string            `json:"name"`
	Of    float64           `json:"of"`
	Notes map[string]string `json:"notes,omitempty"`
}

type longFile struct {
	Items []*longItem `json:"items"`
	After string      `json:"after"`
}

// Long lists are written side by side; the bytes and the errors must not show it.
func TestLongListsAreWrittenTheSame(t *testing.T) {
	for _, n := range []int{0, 1, leastShare, 2*leastShare - 1, 2 * leastShare, 5003} {
		f := longFile{After: "end"}
		for i := range n {
			f.Items = append(f.Items, &longItem{i, fmt.Sprintf("item %d", i), float64(i) / 3, map[string]string{"b": "x", "a": "y"}})
		}
		many, err := Encode(&f)
		require.NoError(t, err)
		was := runtime.GOMAXPROCS(1)
		w := writer{}
		p, err := planner{}.of(reflect.TypeOf(&f))
		require.NoError(t, err)
		require.NoError(t, w.share(p.elem.fields[0].plan, reflect.ValueOf(f.Items), 1, 0, n))
		runtime.GOMAXPROCS(was)
		assert.True(t, bytes.Contains(many, w.b), "%d items read the same, written one after the other", n)
		var back longFile
		require.NoError(t, json.Unmarshal(many, &back))
		require.Len(t, back.Items, n)
		for i := range back.Items {
			assert.Equal(t, f.Items[i], back.Items[i])
		}
	}
	f := longFile{}
	for i := range 4000 {
		f.Items = append(f.Items, &longItem{ID: i})
	}
	f.Items[700].Of, f.Items[3900].Of = math.NaN(), math.Inf(1)
	_, err := Encode(&f)
	assert.ErrorContains(t, err, "items[700].of", "the first in the order of the file")
}
