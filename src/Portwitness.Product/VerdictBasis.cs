using System.Globalization;
using Portwitness.Analysis.Evidence;
using Portwitness.Labels;
using Portwitness.Product.Energy;

namespace Portwitness.Product;

/// <summary>Says on what a verdict rests where there is no label or no capture.</summary>
internal static class VerdictBasis
{
    private const int MaxLines = 12;
    private const int MaxFiles = 3;

    /// <summary>What follows the verdict's word: "to the standard; no label to compare". Empty when it rests on a label and captures.</summary>
    /// <param name="verdict">The verdict.</param>
    /// <param name="product">The product file.</param>
    /// <param name="label">The label.</param>
    /// <param name="energy">What was measured.</param>
    /// <param name="anyCapture">Whether a capture could be read.</param>
    /// <param name="unread">Captures that could not be had, or not be read.</param>
    public static string Of(Verdict verdict, ProductFile product, Label? label, ProductEnergy energy, bool anyCapture, IReadOnlyList<string> unread)
    {
        string basis = WithoutLabelsLines(verdict, product, label, energy, anyCapture);
        string open = verdict == Verdict.CannotTell && label is not null ? OpenLines(label) : "";
        string missing = anyCapture && unread.Count > 0
            ? $"{string.Join(", ", unread.Take(MaxFiles))}{(unread.Count > MaxFiles ? " and more" : "")} could not be read" : "";
        return string.Join("; ", new[] { missing, basis, open }.Where(static part => part.Length > 0));
    }

    // Which lines of the label keep the verdict open.
    private static string OpenLines(Label label)
    {
        int[] lines = [.. label.Unread.Where(span => span.MayRate && !label.IsAmbiguous(span)).Select(static span => span.At.Line).Distinct()];
        string named = string.Join(", ", lines.Take(MaxLines).Select(static line => line.ToString(CultureInfo.InvariantCulture)));
        return lines.Length switch
        {
            0 => "",
            1 => $"line {named} of the label is unread",
            > MaxLines => $"lines {named} and more of the label are unread",
            _ => $"lines {named} of the label are unread",
        };
    }

    private static string WithoutLabelsLines(Verdict verdict, ProductFile product, Label? label, ProductEnergy energy, bool anyCapture)
    {
        if (anyCapture)
        {
            return label is not null ? ""
                : verdict == Verdict.Holds ? "to the standard; no label to compare"
                : "without a label to compare";
        }

        List<string> evidence = [];
        Add(label is not null, "label");
        Add(product.Cells is not null, "cells");
        Add(!product.Parts.IsEmpty || !product.Controllers.IsEmpty, "parts");
        Add(!product.Teardown.IsEmpty, "teardown");
        Add(!product.Claims.IsEmpty, "claims");
        Add(!energy.Logs.IsEmpty, "power logs");
        Add(!energy.Readings.IsEmpty, "measured loads");
        Add(!energy.Adapter.IsEmpty, "measured adapter points");
        string all = evidence.Count > 1 ? $"{string.Join(", ", evidence.Take(evidence.Count - 1))} and {evidence[^1]}" : string.Concat(evidence);
        return $"from {all}; {(product.NamesCaptures ? "no capture could be read" : "no port was captured")}"
            + (label is null ? ", no label to compare" : "");

        void Add(bool isThere, string what)
        {
            if (isThere)
            {
                evidence.Add(what);
            }
        }
    }
}
