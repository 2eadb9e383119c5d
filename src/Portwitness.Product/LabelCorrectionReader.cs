using System.Globalization;
using Portwitness.Labels;
using Portwitness.Text.Yaml;

namespace Portwitness.Product;

/// <summary>Reads one of "label_corrections:": what is to be read in a line of the label, or that the line rates nothing.</summary>
internal static class LabelCorrectionReader
{
    internal static readonly string[] Members = ["line", "printed", "read_as", "no_rating"];

    /// <summary>The correction; null with a fault where it is none.</summary>
    public static ProductCorrection? Read(YamlNode item, YamlValues values)
    {
        (int line, string? printed, string? readAs, string? noRating) = (0, null, null, null);
        foreach ((YamlText key, YamlNode fact) in values.Entries(item, "label_corrections"))
        {
            if (!Members.Contains(key.Text))
            {
                values.Unknown(key, "a label's correction", Members);
                continue;
            }

            string? text = values.Text(fact, key.Text);
            (line, printed, readAs, noRating) = key.Text switch
            {
                "line" => (int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out int number) ? number : 0, printed, readAs, noRating),
                "printed" => (line, text, readAs, noRating),
                "read_as" => (line, printed, text, noRating),
                _ => (line, printed, readAs, text),
            };
        }

        bool isReading = noRating is null && !string.IsNullOrEmpty(printed) && !string.IsNullOrEmpty(readAs) && !readAs.AsSpan().ContainsAny('\n', '\r');
        bool isNoRating = noRating == "true" && printed is null && readAs is null;
        if (line > 0 && (isReading || isNoRating))
        {
            return new ProductCorrection(isNoRating ? LabelCorrection.NoRating(line) : new LabelCorrection(line, printed!, readAs!), item.Line, item.Column);
        }

        values.Fault(
            item, ProductFaultCodes.ValueWrong,
            "a correction needs \"line:\", \"printed:\" and \"read_as:\", as {line: 2, printed: 9V#3A, read_as: 9V 3A}, or \"line:\" and \"no_rating: true\" "
            + "where the line rates nothing");
        return null;
    }
}
