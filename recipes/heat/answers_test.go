package heat_test

import (
	"flag"
	"fmt"
	"math"
	"os"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"trencher/recipes/heat"
	"trencher/units"
)

// answersFile holds whole answers to the questions below, each figure to six places,
// as they were when somebody last looked them through. What is right about them is
// for the other tests to say, which have published figures and second routes; this
// one notices that a figure has moved which none of them stands beside.
const answersFile = "../../testdata/steaming/answers.txt"

var updateAnswers = flag.Bool("update-answers", false, "write down today's answers; read each difference")

func TestAnswersStayAsTheyAre(t *testing.T) {
	var lines []string
	for _, q := range questions(t) {
		lines = append(lines, q.name+":"+flat(q.answer()))
	}
	if *updateAnswers {
		require.NoError(t, os.WriteFile(answersFile, []byte(strings.Join(lines, "\n")+"\n"), 0o644))
	}
	data, err := os.ReadFile(answersFile)
	require.NoError(t, err)
	want := strings.Split(strings.TrimSuffix(string(data), "\n"), "\n")
	require.Len(t, lines, len(want))
	for i := range want {
		sameFigures(t, want[i], lines[i])
	}
}

// sameFigures compares two lines word by word, figures to five parts in a million.
func sameFigures(t *testing.T, want, got string) {
	t.Helper()
	if want == got {
		return
	}
	name, _, _ := strings.Cut(want, ":")
	wanted, words := strings.Fields(want), strings.Fields(got)
	if len(words) != len(wanted) {
		t.Errorf("%s: %d words, now %d: -update-answers writes them down, and the difference is to be read", name, len(wanted), len(words))
		return
	}
	for i := range wanted {
		key, x, ok := figure(wanted[i])
		gotKey, y, gotOK := figure(words[i])
		if ok && gotOK && key == gotKey && math.Abs(x-y) <= 5e-6*math.Max(math.Abs(x), math.Abs(y)) {
			continue
		}
		if wanted[i] != words[i] {
			t.Errorf("%s: was %s, is %s", name, wanted[i], words[i])
		}
	}
}

// figure parts a word such as Minutes=8.4.
func figure(word string) (key string, x float64, ok bool) {
	key, text, _ := strings.Cut(word, "=")
	x, err := strconv.ParseFloat(text, 64)
	return key, x, err == nil
}

// flat writes all that an answer says, but for what was asked and what is nought.
func flat(answer any) string {
	var b strings.Builder
	flatten(&b, "only", reflect.ValueOf(answer))
	return b.String()
}

func flatten(b *strings.Builder, name string, v reflect.Value) {
	if !v.IsValid() || v.IsZero() {
		return
	}
	switch it := v.Interface().(type) {
	case heat.Crop, heat.Cut, heat.Printed, heat.Properties, heat.Learned, units.Provenance:
		if strings.HasPrefix(name, "only") {
			break // it is what was asked for
		}
		return
	case units.Reason:
		fmt.Fprintf(b, " %s=%q", it.Figure, it.Value)
		return
	case fmt.Stringer:
		fmt.Fprintf(b, " %s=%q", name, it)
		return
	case error:
		fmt.Fprintf(b, " %s=%q", name, it.Error())
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if field := v.Type().Field(i); field.IsExported() {
				flatten(b, field.Name, v.Field(i))
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			if v.Len() > 20 && i%30 != 7 {
				continue // a curve: some of its moments stand for all
			}
			flatten(b, name, v.Index(i))
		}
	case reflect.Pointer, reflect.Interface:
		flatten(b, name, v.Elem())
	case reflect.Float64:
		fmt.Fprintf(b, " %s=%.6g", name, v.Float())
	default:
		fmt.Fprintf(b, " %s=%s", name, strings.ReplaceAll(fmt.Sprint(v.Interface()), " ", "_"))
	}
}

// both are an answer and its error.
type both struct {
	Answer any
	Err    error
}

func of[T any](answer T, err error) any {
	if err != nil {
		return both{Err: err}
	}
	return both{Answer: answer}
}
