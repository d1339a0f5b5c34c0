package ui

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestSettingsRoundTrip(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "new", "folder")
	s, err := openSettings(dir)
	require.NoError(t, err, "no file yet is no error")
	s.Dark, s.Width = true, 1200
	for i := range 14 {
		s.remember(fmt.Sprintf("/looms/%d.loom.json", i))
	}
	s.remember("/looms/9.loom.json")
	require.NoError(t, s.save())
	back, err := openSettings(dir)
	require.NoError(t, err)
	assert.Equal(t, s.Settings, back.Settings)
	assert.Len(t, back.Recent, maxRecent)
	assert.Equal(t, "/looms/9.loom.json", back.Recent[0], "the last one used comes first, once")
	assert.Equal(t, "/looms", back.Folder)
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, left, 1, "no temporary file stays behind")
}

func TestSettingsSurviveRubbish(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "settings.json"), []byte(`{"dark":tru`), 0o644))
	s, err := openSettings(dir)
	assert.ErrorContains(t, err, "settings.json")
	assert.Equal(t, Settings{}, s.Settings)
	require.NoError(t, s.save(), "and the next save mends the file")
	_, err = openSettings(dir)
	assert.NoError(t, err)
	none, err := openSettings("")
	require.NoError(t, err)
	assert.NoError(t, none.save())
}
