package talk_test

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/talk"
)

// typed is a conversation with what a person types, and what is shown to them.
func typed(lines ...string) (*talk.Talk, *strings.Builder) {
	var shown strings.Builder
	return talk.New(context.Background(), strings.NewReader(strings.Join(lines, "\n")+"\n"), &shown), &shown
}

// onlyGood accepts one word, and remembers what it was asked to accept.
func onlyGood(heard *[]string) func(string) error {
	return func(answer string) error {
		*heard = append(*heard, answer)
		if answer != "good" {
			return fmt.Errorf("%q will not do", answer)
		}
		return nil
	}
}

// What is wrong with an answer is told and the question put again; blanks round an
// answer do not count.
func TestAskUntilAccepted(t *testing.T) {
	var heard []string
	conversation, shown := typed("bad", "  good ", "unread")
	conversation.Say("Well:")
	require.NoError(t, conversation.Ask("How?", "", onlyGood(&heard)))
	assert.Equal(t, []string{"bad", "good"}, heard)
	assert.Equal(t, "Well:\nHow? \"bad\" will not do\nHow? ", shown.String())

	conversation, shown = typed("bad", "good")
	conversation.Report = func(out io.Writer, err error) { fmt.Fprintf(out, "<%v>", err) }
	require.NoError(t, conversation.Ask("How?", "", onlyGood(&heard)))
	assert.Equal(t, "How? <\"bad\" will not do>How? ", shown.String(), "told in the caller's own way")
}

// Enter takes what is offered; with nothing offered it is an empty answer.
func TestAskOffers(t *testing.T) {
	var heard []string
	conversation, shown := typed("", "", "good")
	require.NoError(t, conversation.Ask("How?", "good", onlyGood(&heard)))
	require.NoError(t, conversation.Ask("How?", "", onlyGood(&heard)))
	assert.Equal(t, []string{"good", "", "good"}, heard)
	assert.Equal(t, "How? [good] How? \"\" will not do\nHow? ", shown.String())
}

// Who ends the input, or is called away, leaves, whatever is asked; the line is
// ended for the shell.
func TestLeaving(t *testing.T) {
	accept := func(string) error { return nil }
	for name, ask := range map[string]func(*talk.Talk) error{
		"ask":     func(c *talk.Talk) error { return c.Ask("Q?", "", accept) },
		"each":    func(c *talk.Talk) error { return c.Each(func(int) string { return "Q?" }, accept) },
		"need":    func(c *talk.Talk) error { return c.Need("Q?", accept) },
		"confirm": func(c *talk.Talk) error { return c.Confirm("Q") },
		"choose":  func(c *talk.Talk) error { return c.Choose("Q?", nil, "", func(int, string) error { return nil }) },
	} {
		var shown strings.Builder
		ended := talk.New(context.Background(), strings.NewReader(""), &shown)
		require.ErrorIs(t, ask(ended), talk.ErrLeft, name)
		assert.True(t, strings.HasPrefix(shown.String(), "Q"), name)
		assert.True(t, strings.HasSuffix(shown.String(), " \n"), name)

		shown.Reset()
		away, leave := context.WithCancel(context.Background())
		leave()
		in, _ := io.Pipe()
		require.ErrorIs(t, ask(talk.New(away, in, &shown)), talk.ErrLeft, name)
		assert.True(t, strings.HasSuffix(shown.String(), " \n"), name)
	}
}

// Each ends with an empty line; what is not taken does not count.
func TestEach(t *testing.T) {
	var heard []string
	conversation, shown := typed("good", "bad", "good", "", "unread")
	require.NoError(t, conversation.Each(func(sofar int) string { return fmt.Sprint(sofar, ":") }, onlyGood(&heard)))
	assert.Equal(t, []string{"good", "bad", "good"}, heard)
	assert.Equal(t, "0: 1: \"bad\" will not do\n1: 2: ", shown.String())
}

// A choice is taken by its number; what is no choice's number is a name.
func TestChoose(t *testing.T) {
	beds := []string{"bed-1", "bed-2"}
	for typedIn, want := range map[string]string{"1": "0 1", "2": "1 2", "0": "-1 0", "3": "-1 3", "-1": "-1 -1", "bed-2": "-1 bed-2", "": "1 2"} {
		conversation, shown := typed(typedIn)
		got := ""
		require.NoError(t, conversation.Choose("From?", beds, "2", func(choice int, name string) error { got = fmt.Sprint(choice, " ", name); return nil }))
		assert.Equal(t, want, got, typedIn)
		assert.Equal(t, "  1  bed-1\n  2  bed-2\nFrom? [2] ", shown.String())
	}
}

// An empty answer leaves, and one that is answered with leaving; any other wrong
// one is asked again.
func TestNeed(t *testing.T) {
	var heard []string
	conversation, shown := typed("bad", "good")
	require.NoError(t, conversation.Need("How?", onlyGood(&heard)))
	assert.Equal(t, "How? \"bad\" will not do\nHow? ", shown.String())
	heard = nil
	conversation, _ = typed("bad", "", "good")
	require.ErrorIs(t, conversation.Need("How?", onlyGood(&heard)), talk.ErrLeft)
	assert.Equal(t, []string{"bad"}, heard)
	conversation, _ = typed("no", "yes")
	require.ErrorIs(t, conversation.Need("Sure?", talk.MustBeYes), talk.ErrLeft)
	require.NoError(t, conversation.Need("Sure?", talk.MustBeYes))
}

func TestMustBeYes(t *testing.T) {
	for answer, yes := range map[string]bool{"y": true, "Yes": true, "YES": true, "no": false, "n": false, "": false, "ok": false} {
		assert.Equal(t, yes, talk.MustBeYes(answer) == nil, answer)
		assert.Equal(t, !yes, errors.Is(talk.MustBeYes(answer), talk.ErrLeft), answer)
	}
}

// Enter is a yes here, and only a no leaves.
func TestConfirm(t *testing.T) {
	for answer, left := range map[string]bool{"": false, "y": false, "YES": false, "n": true, "No": true} {
		conversation, _ := typed(answer)
		assert.Equal(t, left, errors.Is(conversation.Confirm("Write it down"), talk.ErrLeft), answer)
	}
	conversation, shown := typed("maybe", "y")
	require.NoError(t, conversation.Confirm("Write it down"))
	assert.Equal(t, "Write it down (Enter: yes, n: no)? \"maybe\": Enter for yes, n for no\nWrite it down (Enter: yes, n: no)? ", shown.String())
}
