using Portwitness.Labels;
using Portwitness.Product;
using Portwitness.Service.Validation;

using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Calls;

/// <summary>What a label is read with: the corrections of a product file, and those that are added to it.</summary>
/// <param name="Corrections">All of them.</param>
/// <param name="ProductFile">The product file with what was added; empty when nothing was.</param>
internal sealed record LabelSetup(IReadOnlyList<LabelCorrection> Corrections, string ProductFile)
{
    /// <exception cref="Grpc.Core.RpcException">A field of the request is wrong.</exception>
    public static LabelSetup Of(Wire.ReadLabelRequest request, ServiceLimits limits)
    {
        InvalidRequest invalid = new();
        invalid.CheckLabel("text", request.Text, limits);
        invalid.CheckText("product_file", request.ProductFile, limits);
        invalid.ThrowIfAny();
        IReadOnlyList<LabelCorrection> added = LabelSettlement.Read(request.Corrections, out string? problem)
            ?? throw InvalidRequest.Because("corrections", $"{problem}.");
        string file = request.ProductFile;
        if (file.Length == 0)
        {
            return new LabelSetup(Usable(request.Text, added), "");
        }

        ProductFile product = ProductFileReader.Read(file);
        if (product.Label is { } printed && Lines(printed) != Lines(request.Text))
        {
            throw InvalidRequest.Because("product_file", "its label is not the text that is read; corrections name lines of that text. Give the same label.");
        }

        if (product is { Label: null, LabelFile: null })
        {
            throw InvalidRequest.Because("product_file", "it has no label; write label: \"@FILE\" into it, with the name of the label's file.");
        }

        string settled = added.Count == 0 ? ""
            : LabelSettlement.Add(file, added, out problem) ?? throw InvalidRequest.Because("product_file", $"{problem}.");
        return new LabelSetup(Usable(request.Text, [.. product.Corrections.Select(static one => one.Correction), .. added]), settled);
    }

    private static IReadOnlyList<LabelCorrection> Usable(string text, IReadOnlyList<LabelCorrection> corrections) =>
        LabelLimits.Excess(text, corrections) is { } excess ? throw InvalidRequest.TooMuch("corrections", $"{excess}.") : corrections;

    private static string Lines(string text) => text.TrimStart('\uFEFF').ReplaceLineEndings("\n").TrimEnd();
}
