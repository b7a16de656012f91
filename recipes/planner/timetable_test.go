package planner

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

var supper = time.Date(2031, time.July, 12, 18, 30, 0, 0, time.UTC)

func steps(uses Resource, minutes ...int) []Step {
	var list []Step
	for i, m := range minutes {
		list = append(list, Step{Do: fmt.Sprintf("step %d", i), Long: time.Duration(m) * time.Minute, Uses: uses})
	}
	return list
}

func TestTimetableOfAColdAndAHotDish(t *testing.T) {
	cold := Job{Dish: "salad", Before: steps(Cook, 10), Steam: steps(Steamer, 15),
		After: append(steps(Nothing, 60, 60), steps(Cook, 10)...), Herbs: true}
	hot := Job{Dish: "crushed", Before: steps(Cook, 10), Steam: steps(Steamer, 20, 20), After: steps(Cook, 5), Rank: 2}
	pick := Step{Do: "pick", Long: 8 * time.Minute, Uses: Cook}
	var told []string
	for _, task := range Timetable([]Job{cold, hot}, Kitchen{Boil: 9 * time.Minute, Pick: pick}, supper) {
		told = append(told, fmt.Sprintf("%s-%s %s %s", task.At.Format("15:04"), task.End().Format("15:04"), task.Dish, task.Uses))
	}
	require.Contains(t, told, "18:25-18:30 crushed cook")
	require.Contains(t, told, "18:05-18:25 crushed steamer")
	require.Contains(t, told, "17:45-18:05 crushed steamer")
	require.Contains(t, told, "18:15-18:25 salad cook")
	require.Contains(t, told, "16:00-16:15 salad steamer")
	require.Contains(t, told, "15:51-16:00  steamer")
	require.Contains(t, told, "18:07-18:15  cook")
	require.Contains(t, told, "17:36-17:45  steamer", "back to the boil after the pause")
}

// Nothing overlaps that cannot, everything follows what it waits for, and all
// is ready at the serving time.
func TestTimetableProperties(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for range 2000 {
		var jobs []Job
		for d := range 1 + random.IntN(6) {
			jobs = append(jobs, randomJob(random, d))
		}
		kitchen := Kitchen{Boil: time.Duration(random.IntN(12)) * time.Minute, Pick: Step{Do: "pick", Long: time.Duration(random.IntN(9)) * time.Minute, Uses: Cook}}
		tasks := Timetable(jobs, kitchen, supper)
		checkTimetable(t, jobs, kitchen, tasks)
		require.Equal(t, tasks, Timetable(jobs, kitchen, supper), "the same every time")
	}
}

func randomJob(random *rand.Rand, d int) Job {
	job := Job{Dish: fmt.Sprint("dish ", d), Rank: random.IntN(3), Herbs: random.IntN(2) == 0, AtOnce: random.IntN(2) == 0}
	for range random.IntN(3) {
		job.Before = append(job.Before, steps(Cook, 1+random.IntN(20))...)
	}
	for range random.IntN(4) {
		job.Steam = append(job.Steam, steps(Steamer, 5+random.IntN(30))...)
	}
	for range random.IntN(3) {
		job.After = append(job.After, steps([]Resource{Nothing, Cook}[random.IntN(2)], 1+random.IntN(60))...)
	}
	return job
}

func checkTimetable(t *testing.T, jobs []Job, kitchen Kitchen, tasks []Task) {
	for _, job := range jobs {
		var of []Task
		for _, task := range tasks {
			if task.Dish == job.Dish {
				of = append(of, task)
			}
		}
		for i := 1; i < len(of); i++ {
			require.False(t, of[i].At.Before(of[i-1].End()), "a step starts before the one it waits for is over")
		}
		if first := len(job.Before) + len(job.Steam); job.AtOnce && len(job.Steam) > 0 && len(job.After) > 0 {
			require.Equal(t, of[first-1].End(), of[first].At, "a step that comes straight from the steamer waits")
		}
		require.Len(t, of, len(job.Before)+len(job.Steam)+len(job.After))
	}
	for i, a := range tasks {
		require.False(t, a.End().After(supper))
		for _, b := range tasks[i+1:] {
			if a.Uses == b.Uses && a.Uses != Nothing && a.Long > 0 && b.Long > 0 {
				require.False(t, a.At.Before(b.End()) && b.At.Before(a.End()), "%v and %v at once", a, b)
			}
		}
	}
	for _, task := range tasks {
		if task.Uses == Steamer && task.Dish != "" && kitchen.Boil > 0 {
			require.False(t, task.At.Before(boilEnd(tasks)))
		}
	}
}

func boilEnd(tasks []Task) time.Time {
	for _, task := range tasks {
		if task.Dish == "" && task.Uses == Steamer {
			return task.End()
		}
	}
	return time.Time{}
}
