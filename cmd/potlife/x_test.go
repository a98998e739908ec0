package main

import (
	"fmt"
	"os"
	"sort"
	"strconv"
	"testing"
	"time"
)

func TestXplore(t *testing.T) {
	qs := []*question{}
	for _, r := range []string{"epoxy-ipda", "epoxy-teta", "epoxy-polyetheramine", "epoxy-polyetheramine-ipda", "epoxy-mthpa", "epoxy-mpda"} {
		for _, ves := range []string{"{cup: 90 mm}", "{length: 300 mm, width: 120 mm, stirred: true}", "{length: 300 mm, width: 120 mm, stirred: false}"} {
			qs = append(qs, worktimeOf(worktimeOptions{resin: r, mass: "250g", vessel: ves, room: "23C"}))
		}
	}
	qs = append(qs, planOf("telescope-strut.yaml"), planOf("softener-shell.yaml"), cureOf("telescope-strut.yaml"), cureOf("softener-shell.yaml"),
		checkOf("strut.session", "09:20", ""), checkOf("strut.session", "09:58", ""), checkOf("strut.session", "10:22", "20min"), checkOf("strut.session", "10:46", ""), checkOf("shell.session", "10:30", ""),
		replanOf("strut.session", "10:46"), fitOf("club-epoxy-medium.yaml"), fitOf("club-epoxy-slow.yaml"))
	from, _ := strconv.Atoi(os.Getenv("X"))
	to, _ := strconv.Atoi(os.Getenv("Y"))
	vs := map[string][]variation{"T10": {{tighter: 10}}, "T100": {{tighter: 100}}, "F2": {{finer: 2}}, "M4": {{members: 4}}}
	for s := range uint64(4) {
		vs["S"] = append(vs["S"], variation{seed: s + 100})
	}
	for i, q := range qs {
		if i < from || i >= to {
			continue
		}
		start := time.Now()
		base, err := q.figures(variation{})
		if err != nil {
			t.Error(err)
			continue
		}
		fmt.Printf("== %d %s %v\n", i, q.name, time.Since(start).Round(time.Millisecond))
		for _, k := range []string{"T10", "T100", "F2", "S", "M4"} {
			if k == "F2" && !q.grids || (k == "S" || k == "M4") && !q.sizes {
				continue
			}
			start := time.Now()
			worst := map[string]string{}
			wb := map[string]float64{}
			for _, v := range vs[k] {
				f, err := q.figures(v)
				if err != nil {
					t.Error(err)
					continue
				}
				for p, a := range base.words {
					if b := f.words[p]; b != a {
						worst[p] = fmt.Sprintf("%q -> %q", a, b)
						wb[p] = 99
					}
				}
				for p, a := range base.numbers {
					b, ok := f.numbers[p]
					if !ok {
						worst[p] = "gone"
						wb[p] = 99
						continue
					}
					if x := beyond(p, a, b); x > wb[p] {
						wb[p] = x
						worst[p] = fmt.Sprintf("%.6g -> %.6g (%+.2f %%)", a, b, 100*(b-a)/a)
					}
				}
			}
			var names []string
			for p := range worst {
				if wb[p] > 0.3 {
					names = append(names, p)
				}
			}
			sort.Slice(names, func(a, b int) bool { return wb[names[a]] > wb[names[b]] })
			if len(names) > 14 {
				names = names[:14]
			}
			fmt.Printf("  %s %v\n", k, time.Since(start).Round(time.Millisecond))
			for _, p := range names {
				fmt.Printf("     %-5.2f %s %s\n", wb[p], p, worst[p])
			}
		}
	}
}
