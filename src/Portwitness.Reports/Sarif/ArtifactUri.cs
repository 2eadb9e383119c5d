namespace Portwitness.Reports.Sarif;

/// <summary>Files as URI references (RFC 3986): relative where the user named them so, "file:" where the path was whole.</summary>
internal static class ArtifactUri
{
    /// <summary>The product file or the capture itself.</summary>
    public static string Of(ReportedProduct product) => FromPath(product.Source);

    /// <summary>A file that the report of a product names; it lies beside the product file.</summary>
    public static string Of(ReportedProduct product, string file)
    {
        if (!product.IsProductFile || file == product.Source)
        {
            return FromPath(file);
        }

        int folder = product.Source.Replace('\\', '/').LastIndexOf('/');
        return FromPath(product.Source[..(folder + 1)] + file);
    }

    // A segment with a colon is no scheme when the colon is escaped (4.2).
    private static string FromPath(string path)
    {
        string encoded = string.Join('/', path.Replace('\\', '/').Split('/').Select(Uri.EscapeDataString));
        return path.StartsWith('/') ? "file://" + encoded : encoded;
    }
}
