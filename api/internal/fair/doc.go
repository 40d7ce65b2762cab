// Package fair shares a few places among callers who want to work, so that each gets an
// equal share of the work whatever the others ask, and tells those for whom there is no
// place now when to come back. It knows nothing of what the work is.
//
// # Order
//
// A queue has C places. A request takes w of them for a time a that nobody knows before
// it ends; g is a guess of it. The work of a request is w*a, in place-seconds. Every
// caller is a flow with an account S of the work done for it. A place that falls free
// goes to the first request of the backlogged flow whose S is least.
//
// While a request runs, w*max(g, time so far) of it stand in S; when it ends, w*a do.
// A flow that was idle begins at max(S, V), where V is the S of the flow that was let in
// last: rest is no credit, and debt is not forgotten by resting a moment.
//
// This is start-time fair queueing (P. Goyal, H. M. Vin, H. Chen: Start-time fair
// queueing: a scheduling algorithm for integrated services packet switching networks,
// SIGCOMM 1996; recalled, not at hand), with work that is known only afterwards and with
// several places.
//
// # Bound
//
// Let all widths be 1, every a at most L, and flows i and j backlogged from t1 to t2.
// Let S be as the queue sees it, and W the work that will have been done when those that
// run now have ended. A request that runs adds between 0 and L-min(g,L) to S before it
// ends (it may also take back up to g, when it ends before its guess), and a flow has at
// most C of them, so for each flow
//
//	-C*g <= W - S <= C*(L - min(g, L)).
//
// When i is let in, S_i <= S_j; being let in adds at most max(g, L) to S_i. S_j does not
// fall but by what its running requests give back, at most C*g. So at any time
// S_i - S_j <= max(g, L) + C*g, and with both bounds above, for g <= L,
//
//	W_i - W_j <= L + C*g + C*(L - g) + C*g <= (2*C + 1) * L.
//
// The difference does not grow with time: over T seconds, shares of C*T place-seconds
// differ by at most (2+1/C) * L/T. No place is idle while someone waits, so that all
// capacity is used.
//
// # Widths
//
// With requests of several widths the first of the least served flow may not fit into
// the places that are free. Then others may pass it, those that do fit, as long as their
// flow is not more than a window D ahead of it; beyond that, places are kept free until
// it fits. Among flows within the window the widest request goes first: when a wide one
// ends, the next wide one finds its places together, and places need not be gathered
// for each anew. The bound grows by D: a flow gets ahead by passing only while it is
// within D, so W_i - W_j <= D + (2*C + 1) * w * L for the greatest width w. Gathering
// w places idles at most (w-1)*L of them, and happens at most once for each D of work
// that a wide flow is behind, so that at least D/(D + w*L) of the capacity is used.
//
// # Those who are sent away
//
// A request is let wait when it can be expected to be let in soon, by the guesses, and
// is sent away at once when not. Who is sent away is told a time: it is what those who
// wait and those who were told a time before will take, in the same fair order, as if
// they all stood in the queue. So callers who obey come one after the other, just before
// their places fall free, however many they are; who does not obey takes nothing from
// them, since the times told to one flow count against that flow.
package fair
