namespace Portwitness.Product;

/// <summary>The words for what can be wrong with a product file; scripts may rely on them.</summary>
public static class ProductFaultCodes
{
    /// <summary>No YAML, or not of the kind a product file is.</summary>
    public const string Unreadable = "product-file-unreadable";

    /// <summary>A member that is not known. Nothing is judged then: what it was meant to say is missing.</summary>
    public const string MemberUnused = "member-unused";

    /// <summary>A member that is given twice. Nothing is judged then.</summary>
    public const string MemberRepeated = "member-repeated";

    /// <summary>The name of a file where the label's text was expected, or a label's file that may not be read. Nothing is judged then.</summary>
    public const string LabelIsPath = "label-is-path";

    /// <summary>A value of the wrong kind.</summary>
    public const string ValueWrong = "value-wrong";

    /// <summary>A path that is absolute or leaves the product's folder.</summary>
    public const string PathLeavesFolder = "path-leaves-folder";

    /// <summary>Neither a capture nor anything else that could be judged is named.</summary>
    public const string NoCaptures = "no-captures";

    /// <summary>A named file could not be had.</summary>
    public const string FileMissing = "file-missing";

    /// <summary>Whether a fault leaves nothing to judge: a name that is not understood may be the label's, or a capture's.</summary>
    public static bool IsFatal(string code) => code is Unreadable or MemberUnused or MemberRepeated or LabelIsPath;
}
