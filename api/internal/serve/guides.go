package serve

import (
	"io/fs"
	"net/http"
	"path"
	"regexp"
	"slices"
	"strings"
	"sync"

	"github.com/labstack/echo/v4"

	"latewood/api/internal/refuse"
	"latewood/woodphys/method"
)

// GuideList names the guides.
type GuideList struct {
	Items []GuideEntry `json:"items" required:"true" nullable:"false" description:"by their names"`
}

// GuideEntry is one guide.
type GuideEntry struct {
	Name  string `json:"name" required:"true" description:"last part of its path"`
	Title string `json:"title" required:"true" description:"for people"`
	Path  string `json:"path" required:"true" format:"uri-reference" description:"where it stands, as Markdown"`
}

// ListGuides tells which guides there are.
func ListGuides(texts fs.FS) func(*Desk) echo.HandlerFunc {
	list := GuideList{Items: []GuideEntry{}}
	for _, file := range guideFiles(texts) {
		text, err := fs.ReadFile(texts, file)
		if err != nil {
			panic(err) // it was listed
		}
		title, _, _ := strings.Cut(string(text), "\n")
		name := guideName(file)
		list.Items = append(list.Items, GuideEntry{Name: name, Title: strings.TrimLeft(title, "# "), Path: "/guides/" + name})
	}
	return func(*Desk) echo.HandlerFunc {
		return func(c echo.Context) error { return writeTable(c, list) }
	}
}

func guideFiles(texts fs.FS) []string {
	files, err := fs.Glob(texts, "*.md")
	if err != nil {
		panic(err) // the pattern is ours
	}
	return files
}

func guideName(file string) string { return strings.ToLower(strings.TrimSuffix(file, ".md")) }

// Guides serves the guides, each by its name in small letters.
func Guides(texts fs.FS) func(*Desk) echo.HandlerFunc {
	files := guideFiles(texts)
	guides, names := map[string]echo.HandlerFunc{}, make([]string, 0, len(files))
	for _, file := range files {
		name := guideName(file)
		names = append(names, name)
		guides[name] = fromCopy(sync.OnceValues(func() (*prepared, error) {
			text, err := fs.ReadFile(texts, file)
			if err != nil {
				return nil, err
			}
			return prepare("text/plain; charset=utf-8", linksOfServed(text, files))
		}))
	}
	return func(*Desk) echo.HandlerFunc {
		return func(c echo.Context) error {
			if guide := guides[c.Param("name")]; guide != nil {
				return guide(c)
			}
			p := refuse.Header(http.StatusNotFound, "name", "not_found", "there is no such guide; there are "+strings.Join(names, ", "))
			p.Errors[0].Limit = method.OneOf(names...)
			return p
		}
	}
}

var linksInGuides = regexp.MustCompile(`\[([^]]+)\]\(([^)#]+)(#[^)]*)?\)`)

// linksOfServed is a guide with links that work where it is served: to the other guides and
// to the contract; of what lies only in the source it tells the place.
func linksOfServed(text []byte, guides []string) []byte {
	return linksInGuides.ReplaceAllFunc(text, func(link []byte) []byte {
		part := linksInGuides.FindSubmatch(link)
		words, target, place := string(part[1]), string(part[2]), string(part[3])
		switch within := path.Join("api", target); {
		case strings.Contains(target, "://") || strings.HasPrefix(target, "/"):
			return link
		case slices.Contains(guides, target):
			return []byte("[" + words + "](/guides/" + guideName(target) + place + ")")
		case within == "openapi/openapi.yaml":
			return []byte("[" + words + "](/openapi.yaml)")
		case within == path.Join("api", words): // the words are the place
			return []byte("`" + within + "` in the source")
		default:
			return []byte(words + " (`" + within + "` in the source)")
		}
	})
}
