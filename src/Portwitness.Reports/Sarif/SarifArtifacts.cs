using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Sarif;

/// <summary>The files of a run, numbered as they come (3.24).</summary>
internal sealed class SarifArtifacts
{
    private readonly Dictionary<string, int> _indexes = [];
    private readonly Dictionary<string, JudgedFile> _judged = [];
    private readonly List<string> _uris = [];

    /// <summary>Takes every file that a report names.</summary>
    public void Add(ReportedProduct product, ProductReport report)
    {
        IndexOf(ArtifactUri.Of(product));
        foreach (string file in report.Ports.SelectMany(static port => port.Arrangements).Select(static one => one.File)
            .Concat(report.PowerLogs.Select(static log => log.File)).Where(static file => file.Length > 0))
        {
            IndexOf(ArtifactUri.Of(product, file));
        }

        foreach (JudgedFile input in report.Inputs)
        {
            string uri = ArtifactUri.Of(product, input.File);
            IndexOf(uri);
            _judged[uri] = input;
        }
    }

    /// <summary>Writes a physical location; a line only where one of that file is known (3.29, 3.30).</summary>
    public void WriteLocation(SarifWriter sarif, string uri, long line = 0)
    {
        sarif.Json.WriteStartObject("physicalLocation");
        sarif.Json.WriteStartObject("artifactLocation");
        sarif.Json.WriteString("uri", uri);
        sarif.Json.WriteNumber("index", IndexOf(uri));
        sarif.Json.WriteEndObject();
        if (line > 0)
        {
            sarif.Json.WriteStartObject("region");
            sarif.Json.WriteNumber("startLine", line);
            sarif.Json.WriteEndObject();
        }

        sarif.Json.WriteEndObject();
    }

    public void Write(SarifWriter sarif)
    {
        sarif.Json.WriteStartArray("artifacts");
        foreach (string uri in _uris)
        {
            sarif.Json.WriteStartObject();
            sarif.Json.WriteStartObject("location");
            sarif.Json.WriteString("uri", uri);
            sarif.Json.WriteEndObject();
            if (_judged.TryGetValue(uri, out JudgedFile? input))
            {
                sarif.Json.WriteNumber("length", input.Bytes);
                sarif.Json.WriteStartObject("hashes");
                sarif.WriteText("sha-256", input.Sha256);
                sarif.Json.WriteEndObject();
            }

            sarif.Json.WriteEndObject();
        }

        sarif.Json.WriteEndArray();
    }

    private int IndexOf(string uri)
    {
        if (!_indexes.TryGetValue(uri, out int index))
        {
            index = _indexes[uri] = _uris.Count;
            _uris.Add(uri);
        }

        return index;
    }
}
