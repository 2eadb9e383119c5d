using System.Text;
using System.Xml;
using System.Xml.Linq;

namespace Portwitness.Reports.Html;

/// <summary>The frame of a page: everything that it needs is in it, and nothing else may be loaded.</summary>
internal static class Page
{
    private const string Nothing = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action ";

    /// <summary>Writes a page.</summary>
    /// <param name="writer">Where to.</param>
    /// <param name="title">Its title.</param>
    /// <param name="body">Its content.</param>
    /// <param name="script">A script of this project that it may run; null for none. It can be read without.</param>
    /// <param name="showsPictures">Whether there are pictures in it.</param>
    /// <param name="asks">Whether it has a form, with which only the page's own server is asked.</param>
    public static void Write(TextWriter writer, string title, XElement[] body, string? script = null, bool asks = false, bool showsPictures = false)
    {
        XElement page = Markup.Element(
            "html", new XAttribute("lang", "en"),
            Markup.Element(
                "head",
                Markup.Element("meta", new XAttribute("charset", "utf-8")),
                Markup.Element("meta", new XAttribute("http-equiv", "Content-Security-Policy"), new XAttribute("content", Nothing + (asks ? "'self'" : "'none'") + (script is null ? "" : "; script-src 'unsafe-inline'") + (showsPictures ? "; img-src data:" : ""))),
                Markup.Element("meta", new XAttribute("name", "viewport"), new XAttribute("content", "width=device-width, initial-scale=1")),
                Markup.Element("meta", new XAttribute("name", "color-scheme"), new XAttribute("content", "light dark")),
                Markup.Element("title", title),
                new XElement("style", Resource("Page.css"))),
            Markup.Element("body", body, script is null ? null : new XElement("script", Resource(script))));
        writer.Write("<!DOCTYPE html>\n");
        using XmlWriter xml = XmlWriter.Create(writer, new XmlWriterSettings { OmitXmlDeclaration = true, CloseOutput = false });
        page.Save(xml);
        xml.Flush();
        writer.Write('\n');
    }

    // Nothing in these files is written otherwise in XML than in HTML.
    private static string Resource(string name)
    {
        using Stream stream = typeof(Page).Assembly.GetManifestResourceStream(name)!;
        using StreamReader reader = new(stream, Encoding.UTF8);
        return reader.ReadToEnd();
    }
}
