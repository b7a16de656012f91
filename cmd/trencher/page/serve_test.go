package page

import (
	"io"
	"net"
	"net/http"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestListenStaysOnThisMachine(t *testing.T) {
	listener, err := Listen(0, false)
	require.NoError(t, err)
	defer listener.Close()
	assert.True(t, listener.Addr().(*net.TCPAddr).IP.IsLoopback())
	_, err = Listen(PortOf(listener), false)
	assert.ErrorContains(t, err, "choose another", "a port that is taken")

	open, err := Listen(0, true)
	require.NoError(t, err)
	defer open.Close()
	assert.True(t, open.Addr().(*net.TCPAddr).IP.IsUnspecified(), "only --phone opens the other addresses")
	assert.True(t, strings.HasPrefix(Addresses(open, true)[0], "http://127.0.0.1:"))
}

func TestServerBoundsItsClients(t *testing.T) {
	server := newPage(t, Options{}).server()
	for _, limit := range []time.Duration{server.ReadHeaderTimeout, server.ReadTimeout, server.WriteTimeout, server.IdleTimeout} {
		assert.NotZero(t, limit)
	}
	address, _ := startPage(t)
	asked, err := http.NewRequest("GET", address, nil)
	require.NoError(t, err)
	asked.Header.Set("X-Long", strings.Repeat("x", 2*maxHeader))
	answer, err := http.DefaultClient.Do(asked)
	require.NoError(t, err)
	answer.Body.Close()
	assert.Equal(t, http.StatusRequestHeaderFieldsTooLarge, answer.StatusCode)
}

// A client that never ends its headers is cut off; it takes the time limit to
// see it.
func TestServerCutsSlowClientsOff(t *testing.T) {
	if os.Getenv("TRENCHER_LONG") != "1" {
		t.Skip("TRENCHER_LONG=1 waits for the time limit")
	}
	address, _ := startPage(t)
	connection, err := net.Dial("tcp", strings.TrimPrefix(address, "http://"))
	require.NoError(t, err)
	defer connection.Close()
	_, err = io.WriteString(connection, "GET / HTTP/1.1\r\nHost: 127.0.0.1\r\n")
	require.NoError(t, err)
	require.NoError(t, connection.SetReadDeadline(time.Now().Add(HeaderTimeout+10*time.Second)))
	_, err = io.ReadAll(connection)
	assert.NoError(t, err, "the server closes; the test does not give up")
}
