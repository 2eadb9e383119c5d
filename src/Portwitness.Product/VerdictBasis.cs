using Portwitness.Analysis.Evidence;
using Portwitness.Labels;
using Portwitness.Product.Energy;

namespace Portwitness.Product;

/// <summary>Says on what a verdict rests where there is no label or no capture.</summary>
internal static class VerdictBasis
{
    /// <summary>What follows the verdict's word: "to the standard; no label to compare". Empty when it rests on a label and captures.</summary>
    public static string Of(Verdict verdict, ProductFile product, Label? label, ProductEnergy energy, bool anyCapture)
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
        Add(!product.Parts.IsEmpty, "parts");
        Add(!energy.Logs.IsEmpty, "power logs");
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
