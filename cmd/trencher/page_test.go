package main

import (
	"bufio"
	"bytes"
	"context"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// openPage runs `trencher page` until the test ends and gives what it prints
// line by line.
func openPage(t *testing.T, args ...string) *bufio.Scanner {
	t.Helper()
	read, write := io.Pipe()
	env := &environment{in: strings.NewReader(""), out: write, err: write, now: time.Now}
	ctx, stop := context.WithCancel(context.Background())
	ended := make(chan int, 1)
	go func() { ended <- run(ctx, env, append([]string{"page", "--port", "0"}, args...)) }()
	t.Cleanup(func() {
		stop()
		go io.Copy(io.Discard, read)
		assert.Equal(t, statusDone, <-ended, "it stops when asked")
	})
	return bufio.NewScanner(read)
}

func TestPagePrintsItsAddressAndAnswers(t *testing.T) {
	said := openPage(t, "--demo")
	require.True(t, said.Scan())
	address := said.Text()
	require.Regexp(t, `^http://127\.0\.0\.1:\d+/$`, address)
	answer, err := http.Get(address)
	require.NoError(t, err)
	defer answer.Body.Close()
	body, err := io.ReadAll(answer.Body)
	require.NoError(t, err)
	assert.Equal(t, http.StatusOK, answer.StatusCode)
	assert.Contains(t, string(body), "On hand")

	asked, err := http.NewRequest("GET", address, nil)
	require.NoError(t, err)
	asked.Host = "attacker.example"
	refused, err := http.DefaultClient.Do(asked)
	require.NoError(t, err)
	refused.Body.Close()
	assert.Equal(t, http.StatusMisdirectedRequest, refused.StatusCode)
}

func TestPageAsksPhonesForTheCode(t *testing.T) {
	said := openPage(t, "--demo", "--phone")
	require.True(t, said.Scan())
	address := said.Text()
	code := ""
	for code == "" && said.Scan() {
		_, code, _ = strings.Cut(said.Text(), "code for the next phone: ")
	}
	require.Len(t, code, len("abcde fghij"))
	answer, err := http.Get(address)
	require.NoError(t, err)
	answer.Body.Close()
	assert.Equal(t, http.StatusUnauthorized, answer.StatusCode, "no code, no page: not even on this machine")
}

func TestPageRefuses(t *testing.T) {
	empty := t.TempDir()
	broken := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(broken, "kitchen.yaml"), []byte("measures: furlongs\n"), 0o644))
	tests := []struct {
		name   string
		args   []string
		status int
		says   string
	}{
		{"no plot there", []string{"--plot", empty}, statusInput, "kitchen.yaml"},
		{"a broken plot", []string{"--plot", broken}, statusInput, "kitchen.yaml:1:11"},
		{"a port that is none", []string{"--demo", "--port", "70000"}, statusInput, "--port 70000"},
		{"a port in words", []string{"--demo", "--port", "front"}, statusUsage, "--port"},
		{"something more", []string{"--demo", "now"}, statusUsage, "now"},
		{"both plots", []string{"--demo", "--plot", empty}, statusUsage, "demo"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			var out, errs bytes.Buffer
			env := &environment{in: strings.NewReader(""), out: &out, err: &errs, now: time.Now}
			assert.Equal(t, test.status, run(context.Background(), env, append([]string{"page"}, test.args...)))
			assert.Empty(t, out.String())
			assert.Contains(t, errs.String(), test.says)
		})
	}
}
