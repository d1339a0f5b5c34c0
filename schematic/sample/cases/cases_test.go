package cases_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic/sample/cases"
)

func TestSectionsAreReadChangedAndWritten(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.txtar")
	require.NoError(t, os.WriteFile(path, []byte("why it is there\n-- sheet --\nfuse\n-- want --\nold\n"), 0o644))
	c, err := cases.Read(path)
	require.NoError(t, err)
	assert.Equal(t, "fuse\n", c.Section("sheet"))
	assert.Empty(t, c.Section("after"))
	c.Set("want", "new\n")
	c.Set("after", "rest\n")
	require.NoError(t, c.Write())
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, "why it is there\n-- sheet --\nfuse\n-- want --\nnew\n-- after --\nrest\n", string(text))
}

func TestErrorsNameTheFile(t *testing.T) {
	_, err := cases.Read(filepath.Join(t.TempDir(), "gone.txtar"))
	assert.ErrorIs(t, err, os.ErrNotExist)
	assert.ErrorContains(t, err, "gone.txtar")
}
