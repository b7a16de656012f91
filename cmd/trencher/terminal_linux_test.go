package main

import (
	"bufio"
	"context"
	"io"
	"os"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"
	"unsafe"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// openTerminal is a pseudo-terminal: the keyboard and screen of a person, and
// the device that a program sees. See pts(4) and ioctl_tty(2) of the Linux
// manual; elsewhere the same sessions are typed into memory (talk_test.go).
func openTerminal(t *testing.T) (person, program *os.File) {
	t.Helper()
	person, err := os.OpenFile("/dev/ptmx", os.O_RDWR|syscall.O_NOCTTY, 0)
	require.NoError(t, err)
	t.Cleanup(func() { person.Close() })
	control := func(request uintptr, value *int32) {
		_, _, errno := syscall.Syscall(syscall.SYS_IOCTL, person.Fd(), request, uintptr(unsafe.Pointer(value)))
		require.Zero(t, errno)
	}
	var unlocked, number int32
	control(syscall.TIOCSPTLCK, &unlocked)
	control(syscall.TIOCGPTN, &number)
	program, err = os.OpenFile("/dev/pts/"+strconv.Itoa(int(number)), os.O_RDWR|syscall.O_NOCTTY, 0)
	require.NoError(t, err)
	t.Cleanup(func() { program.Close() })
	return person, program
}

// session types answers, each as soon as its question stands on the screen, and
// counts the keystrokes. It returns the whole screen.
func session(t *testing.T, g *garden, questionsAndAnswers []string, args ...string) (screen string, keystrokes int) {
	t.Helper()
	person, program := openTerminal(t)
	env := &environment{in: program, out: program, err: program, program: noProgram,
		now: func() time.Time { return g.now }, device: func() string { return "aaaaaa" }}
	require.True(t, isTerminal(program), "a terminal is known for one")
	done := make(chan int, 1)
	go func() {
		done <- run(context.Background(), env, append(args, "--plot", g.dir))
		program.WriteString("\nover\n")
	}()
	var seen strings.Builder
	read := bufio.NewReader(person)
	until := func(says string) {
		from := seen.Len()
		for !strings.Contains(seen.String()[from:], says) {
			b, err := read.ReadByte()
			require.NoError(t, err, "waiting for %q after\n%s", says, seen.String())
			seen.WriteByte(b)
		}
	}
	for i := 0; i < len(questionsAndAnswers); i += 2 {
		until(questionsAndAnswers[i])
		_, err := io.WriteString(person, questionsAndAnswers[i+1])
		require.NoError(t, err)
		keystrokes += len([]rune(questionsAndAnswers[i+1]))
	}
	until("over\r\n")
	require.Equal(t, statusDone, <-done, seen.String())
	g.now = g.now.Add(time.Second)
	return seen.String(), keystrokes
}

// A day at a real terminal: a lift of three bowls in at most 40 keystrokes, what
// was cooked and eaten, and the last of it taken back.
func TestADayAtATerminal(t *testing.T) {
	g := newGarden(t)
	screen, keystrokes := session(t, g, []string{
		"Lifted from? [1] ", "tub\n",
		"Bowl 1 in kg", "1.46-.31\n",
		"Bowl 2, full alone", ".98\n",
		"Bowl 3", "1.2\n",
		"Bowl 4", "\n",
		"Sorted, as", "\n",
		"still in the ground", "\n",
		"Where does it lie", "\n",
		"When, as", "\n",
		"Write it down", "\n",
	}, "lift")
	assert.LessOrEqual(t, keystrokes, 40)
	t.Logf("a lift of three bowls: %d keystrokes", keystrokes)
	assert.Contains(t, screen, "tub-1: 2.71 kg lifted")
	assert.NotContains(t, screen, "--", "no flag in a question")

	screen, _ = session(t, g, []string{"What was cooked? [1] ", "spring\n", "How much", "6\n", "come off the heat", "11:30\n",
		"What else was cooked", "\n", "Write it down", "\n"}, "cooked")
	assert.Contains(t, screen, "Spring onion mash: cooked at 11:30, 6 portions")
	screen, _ = session(t, g, []string{"What was eaten? [1] ", "\n", "How much", "4\n", "When, as", "\n", "Write it down", "\n"}, "eaten")
	assert.Contains(t, screen, "Spring onion mash: eaten at ")
	screen, _ = session(t, g, []string{"Take it back", "\n"}, "undo")
	assert.Contains(t, screen, "taken back: Spring onion mash eaten, 4 portions")
	screen, _ = session(t, g, []string{"Take it back", "\n"}, "undo")
	assert.Contains(t, screen, "taken back: Spring onion mash cooked, 6 portions")
	screen, _ = session(t, g, []string{"Take it back", "\n"}, "undo")
	assert.Contains(t, screen, "taken back: lift of tub-1, 2.71 kg")
}

// Nothing typed ever comes from /dev/null: a script is not asked.
func TestNobodySitsAtTheNullDevice(t *testing.T) {
	null, err := os.Open(os.DevNull)
	require.NoError(t, err)
	defer null.Close()
	assert.False(t, isTerminal(null))
}
