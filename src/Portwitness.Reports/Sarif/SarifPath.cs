namespace Portwitness.Reports.Sarif;

/// <summary>Where a file lies, as SARIF names it.</summary>
internal static class SarifPath
{
    /// <summary>A relative reference (RFC 3986, 4.2) with forward slashes: files of a product lie beside its product file.</summary>
    public static string Of(ReportedProduct product, string file)
    {
        string source = product.Source.Replace('\\', '/');
        string own = file.Replace('\\', '/');
        bool isBeside = product.IsProductFile && own.Length > 0 && !source.EndsWith(own.TrimStart('.', '/'), StringComparison.Ordinal);
        string path = own.Length == 0 ? source : isBeside && source.Contains('/', StringComparison.Ordinal) ? source[..(source.LastIndexOf('/') + 1)] + own
            : isBeside ? own : source;
        string escaped = string.Join('/', path.Split('/').Select(Uri.EscapeDataString));
        return Path.IsPathRooted(path) ? "file://" + escaped : escaped;
    }
}
