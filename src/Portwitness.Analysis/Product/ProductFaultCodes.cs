namespace Portwitness.Analysis.Product;

/// <summary>The words for what can be wrong with a product file; scripts may rely on them.</summary>
public static class ProductFaultCodes
{
    /// <summary>No YAML, or not of the kind a product file is.</summary>
    public const string Unreadable = "product-file-unreadable";

    /// <summary>A member that is not known or not judged.</summary>
    public const string MemberUnused = "member-unused";

    /// <summary>A value of the wrong kind.</summary>
    public const string ValueWrong = "value-wrong";

    /// <summary>A path that is absolute or leaves the product's folder.</summary>
    public const string PathLeavesFolder = "path-leaves-folder";

    /// <summary>No capture is named.</summary>
    public const string NoCaptures = "no-captures";

    /// <summary>A named file could not be had.</summary>
    public const string FileMissing = "file-missing";
}
