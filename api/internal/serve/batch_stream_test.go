package serve_test

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"runtime"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api"
	"latewood/api/internal/asking"
	"latewood/api/internal/moist"
	"latewood/api/internal/refuse"
	"latewood/api/internal/serve"
)

func linesOf(t testing.TB, text []byte) []batchAnswer {
	t.Helper()
	require.True(t, len(text) == 0 || text[len(text)-1] == '\n', "a whole number of lines")
	var all []batchAnswer
	for line := range bytes.Lines(text) {
		all = append(all, asking.Decoded[batchAnswer](t, line))
	}
	return all
}

func askLines(t testing.TB, lines ...string) []batchAnswer {
	t.Helper()
	r := asking.Posting("/v1/batch", strings.Join(lines, "\n"), "Content-Type", "application/x-ndjson").Of(t, asking.SharedService())
	require.Equal(t, http.StatusOK, r.Code, r.Body.String())
	assert.Equal(t, "application/x-ndjson", r.Header().Get("Content-Type"))
	return linesOf(t, r.Body.Bytes())
}

func TestLines(t *testing.T) {
	var lines []string
	for i := range 5000 {
		switch i % 100 {
		case 7:
			lines = append(lines, `{"id": "cut short`)
		case 8:
			lines = append(lines, "") // passed over
		default:
			lines = append(lines, fmt.Sprintf(`{"id": "n%d", "route": "/v1/movement", "request": {"wood": "maple-sugar", "size": "%d mm", "direction": "tangential", "from_condition": {"mc_pct": 9}, "to_condition": {"mc_pct": 6}}}`, i, i+1))
		}
	}
	answers := askLines(t, lines...)
	require.Len(t, answers, 5000-50)
	next := 0
	for i := range lines {
		if lines[i] == "" {
			continue
		}
		one := answers[next]
		next++
		require.Equal(t, i+1, one.Line, "blank lines count")
		if i%100 == 7 {
			assert.Equal(t, http.StatusBadRequest, one.Status)
			assert.Contains(t, asking.Decoded[refuse.Problem](t, one.Problem).Detail, "ends before the JSON does")
			continue
		}
		require.Equal(t, fmt.Sprint("n", i), one.ID)
		moved := asking.Decoded[serve.Answer[moist.MovementResult]](t, one.Answer).Result
		change := asking.FormOf(t, moved.Forms, "coefficient").Change
		assert.InDelta(t, float64(i+1)*0.00353*-3, change.Value, halfStep(change), "Wood Handbook eq. 13-1, C_T of table 13-5")
	}
}

func TestOddLines(t *testing.T) {
	assert.Empty(t, askLines(t))
	assert.Empty(t, askLines(t, "", " \t ", "\r"))
	assert.Len(t, askLines(t, asking.EMCItem+"\r", asking.EMCItem), 2, "the end of the last line may be left out")
	long := `{"id": "` + strings.Repeat("x", serve.MostLine) + `"}`
	answers := askLines(t, asking.EMCItem, long, asking.EMCItem, asking.EMCItem+asking.EMCItem, asking.EMCItem)
	require.Len(t, answers, 5)
	assert.Equal(t, []int{200, 413, 200, 400, 200}, []int{answers[0].Status, answers[1].Status, answers[2].Status, answers[3].Status, answers[4].Status})
	assert.Contains(t, asking.Decoded[refuse.Problem](t, answers[1].Problem).Detail, "1048576")
	assert.Equal(t, []int{1, 2, 3, 4, 5}, []int{answers[0].Line, answers[1].Line, answers[2].Line, answers[3].Line, answers[4].Line})
	fits := `{"route": "/v1/emc", "request": ` + asking.EMCBody
	fits += strings.Repeat(" ", serve.MostLine-len(fits)-1) + "}"
	assert.Equal(t, http.StatusOK, askLines(t, fits, asking.EMCItem)[0].Status, "a line of the limit itself")
}

// serverOf is a real server with the service, and its client.
func serverOf(t testing.TB, s *serve.Service) *httptest.Server {
	t.Helper()
	server := httptest.NewServer(s)
	t.Cleanup(server.Close)
	return server
}

// talk opens a stream: write sends a line, read waits for an answer.
type talk struct {
	t       testing.TB
	write   *io.PipeWriter
	reply   *http.Response
	answers *bufio.Reader
}

func openTalk(t testing.TB, server *httptest.Server) *talk {
	t.Helper()
	read, write := io.Pipe()
	request, err := http.NewRequest(http.MethodPost, server.URL+"/v1/batch", read)
	require.NoError(t, err)
	request.Header.Set("Content-Type", "application/x-ndjson")
	reply, err := server.Client().Do(request)
	require.NoError(t, err)
	t.Cleanup(func() { _ = write.Close(); _ = reply.Body.Close() })
	return &talk{t, write, reply, bufio.NewReader(reply.Body)}
}

func (k *talk) say(line string) {
	_, err := io.WriteString(k.write, line+"\n")
	require.NoError(k.t, err)
}

func (k *talk) hear() batchAnswer {
	line, err := k.answers.ReadBytes('\n')
	require.NoError(k.t, err)
	return asking.Decoded[batchAnswer](k.t, line)
}

// Each line is answered before the next is sent, over one connection.
func TestLinesAreAnsweredAsTheyCome(t *testing.T) {
	k := openTalk(t, serverOf(t, asking.SharedService()))
	for i := range 50 {
		k.say(item1("/v1/emc", fmt.Sprint(i), asking.EMCBody))
		one := k.hear()
		assert.Equal(t, fmt.Sprint(i), one.ID)
		assert.Equal(t, http.StatusOK, one.Status)
	}
	require.NoError(t, k.write.Close())
	rest, err := io.ReadAll(k.answers)
	require.NoError(t, err)
	assert.Empty(t, rest, "a stream that its caller ends, ends without a word")
}

// A caller who goes away leaves nothing behind; TestMain looks for goroutines.
func TestStreamsOfCallersWhoLeave(t *testing.T) {
	s := asking.FreshService(t, io.Discard)
	server := serverOf(t, s)
	for range 2 * serve.MostStreams {
		k := openTalk(t, server)
		require.Equal(t, http.StatusOK, k.reply.StatusCode, "streams of those who left are free again")
		k.say(asking.EMCItem)
		k.hear()
		require.NoError(t, k.reply.Body.Close())
		require.NoError(t, k.write.CloseWithError(io.ErrUnexpectedEOF))
		require.Eventually(t, func() bool { return s.Streams() == 0 }, 10*time.Second, time.Millisecond)
	}
}

func TestStreamsAtATime(t *testing.T) {
	s := asking.FreshService(t, io.Discard)
	server := serverOf(t, s)
	for range serve.MostOwnStreams {
		require.Equal(t, http.StatusOK, openTalk(t, server).reply.StatusCode)
	}
	k := openTalk(t, server)
	assert.Equal(t, http.StatusServiceUnavailable, k.reply.StatusCode)
	assert.NotEmpty(t, k.reply.Header.Get("Retry-After"))
	assert.True(t, k.reply.Close, "its connection cannot be used again: the body has no end")
}

// A service that stops answers what it has read, says so and ends the stream.
func TestDrainEndsStreams(t *testing.T) {
	s := asking.FreshService(t, io.Discard)
	k := openTalk(t, serverOf(t, s))
	k.say(asking.EMCItem)
	assert.Equal(t, http.StatusOK, k.hear().Status)
	s.Drain()
	last := k.hear()
	assert.True(t, last.End)
	assert.Equal(t, http.StatusServiceUnavailable, last.Status)
	_, err := k.answers.ReadByte()
	assert.ErrorIs(t, err, io.EOF)
}

// A caller who says nothing for too long is cut off, with a word. The clock and
// the connection are those of the test.
func TestSilentStreams(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s, err := api.New(serve.Config{})
		require.NoError(t, err)
		near, far := net.Pipe()
		listener := &oneConnection{conns: make(chan net.Conn, 1), closed: make(chan struct{})}
		listener.conns <- far
		server := &http.Server{Handler: s, ReadTimeout: serve.ReadTimeout, WriteTimeout: serve.WriteTimeout}
		served := make(chan struct{})
		go func() { defer close(served); _ = server.Serve(listener) }()
		go func() {
			_, _ = fmt.Fprintf(near, "POST /v1/batch HTTP/1.1\r\nHost: x\r\nContent-Type: application/x-ndjson\r\nTransfer-Encoding: chunked\r\n\r\n")
			for range 3 { // longer in all than ReadTimeout
				_, _ = fmt.Fprintf(near, "%x\r\n%s\n\r\n", len(asking.EMCItem)+1, asking.EMCItem)
				time.Sleep(10 * time.Second)
			}
		}()
		reply, err := http.ReadResponse(bufio.NewReader(near), nil)
		require.NoError(t, err)
		text, err := io.ReadAll(reply.Body)
		require.NoError(t, err)
		answers := linesOf(t, text)
		require.Len(t, answers, 4)
		assert.Equal(t, http.StatusOK, answers[2].Status)
		assert.Equal(t, http.StatusRequestTimeout, answers[3].Status)
		assert.True(t, answers[3].End)
		require.NoError(t, near.Close())
		require.NoError(t, server.Close())
		<-served
	})
}

// oneConnection is a listener that accepts the connections it was given.
type oneConnection struct {
	conns  chan net.Conn
	closed chan struct{}
}

func (l *oneConnection) Accept() (net.Conn, error) {
	select {
	case c := <-l.conns:
		return c, nil
	case <-l.closed:
		return nil, net.ErrClosed
	}
}

func (l *oneConnection) Close() error   { close(l.closed); return nil }
func (l *oneConnection) Addr() net.Addr { return &net.TCPAddr{} }

// A body that is a hundred megabytes long takes no more memory than a short one:
// what is not answered is not read.
func TestMemoryOfAStreamIsBounded(t *testing.T) {
	if testing.Short() {
		t.Skip("takes a second")
	}
	const lines = 40_000
	line := asking.EMCItem[:len(asking.EMCItem)-1] + strings.Repeat(" ", 2500) + "}\n"
	read, write := io.Pipe()
	go func() {
		for range lines {
			if _, err := io.WriteString(write, line); err != nil {
				break
			}
		}
		_ = write.Close()
	}()
	request := httptest.NewRequest(http.MethodPost, "/v1/batch", read)
	request.Header.Set("Content-Type", "application/x-ndjson")
	watch := &watching{header: http.Header{}}
	runtime.GC()
	var before runtime.MemStats
	runtime.ReadMemStats(&before)
	asking.SharedService().ServeHTTP(watch, request)
	assert.Equal(t, lines, watch.lines)
	assert.Less(t, watch.most, before.HeapInuse+40<<20)
}

// watching counts lines and looks at the memory from time to time.
type watching struct {
	header http.Header
	lines  int
	writes int
	most   uint64
}

func (w *watching) Header() http.Header { return w.header }
func (w *watching) WriteHeader(int)     {}
func (w *watching) Write(b []byte) (int, error) {
	w.lines += bytes.Count(b, []byte{'\n'})
	if w.writes++; w.writes%500 == 0 {
		var now runtime.MemStats
		runtime.ReadMemStats(&now)
		w.most = max(w.most, now.HeapInuse)
	}
	return len(b), nil
}

// A stream that is faster than its rate is slowed down, not refused.
func TestStreamsAreSlowedDown(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := asking.RatedService(t, serve.Rate{PerSecond: 10, Burst: 100})
		start := time.Now()
		r := asking.Posting("/v1/batch", strings.Repeat(asking.EMCItem+"\n", 3000), "Content-Type", "application/x-ndjson").Of(t, s)
		answers := linesOf(t, r.Body.Bytes())
		require.Len(t, answers, 3000)
		for _, one := range answers {
			require.Equal(t, http.StatusOK, one.Status)
		}
		// 300 units for the items and 1 for the request, 100 of them at once.
		assert.InDelta(t, 20.1, time.Since(start).Seconds(), 0.2)
	})
}

// The example of the batch, item by item, over a stream.
func TestStreamOfTheExample(t *testing.T) {
	var whole struct{ Items []json.RawMessage }
	require.NoError(t, json.Unmarshal(asking.ExampleBodies(t)["/v1/batch"][0], &whole))
	var lines []string
	for _, one := range whole.Items {
		var flat bytes.Buffer
		require.NoError(t, json.Compact(&flat, one))
		lines = append(lines, flat.String())
	}
	answers := askLines(t, lines...)
	require.Len(t, answers, 4)
	assert.Equal(t, "mistake", answers[3].ID)
	assert.Equal(t, http.StatusUnprocessableEntity, answers[3].Status)
	assert.Equal(t, "/size", asking.Decoded[refuse.Problem](t, answers[3].Problem).Errors[0].Pointer)
}
