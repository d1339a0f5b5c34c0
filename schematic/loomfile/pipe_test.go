//go:build unix

package loomfile

import (
	"path/filepath"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A pipe that nobody writes to waits for ever when it is opened.
func TestLoadRefusesAPipe(t *testing.T) {
	path := filepath.Join(t.TempDir(), "pipe.loom.json")
	require.NoError(t, syscall.Mkfifo(path, 0o600))
	refused := make(chan error, 1)
	go func() {
		_, err := Load(path, nil)
		refused <- err
	}()
	select {
	case err := <-refused:
		assert.ErrorContains(t, err, "this is a device or a pipe, not a file")
	case <-time.After(10 * time.Second):
		t.Fatal("still waiting")
	}
}
