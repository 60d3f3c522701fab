package larder

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestBuiltinReads(t *testing.T) {
	_, err := Load(sub())
	require.NoError(t, err)
}
