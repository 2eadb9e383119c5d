using System.Collections.Immutable;
using Portwitness.Text.Yaml;

namespace Portwitness.Product;

/// <summary>Reads "labels:" of a product file: several labels of one product, each with a name.</summary>
internal sealed class LabelsReader(YamlValues values)
{
    private const int MaxLabels = 20;
    private const int MaxCorrections = 200;

    internal static readonly string[] Members = ["name", "label", "file", "label_corrections"];

    /// <summary>The labels that can be read.</summary>
    public ImmutableArray<NamedLabel> Read(YamlNode node)
    {
        List<NamedLabel> labels = [];
        foreach (YamlNode item in values.Items(node, "labels", MaxLabels))
        {
            if (One(item) is not { } label)
            {
                continue;
            }

            if (labels.Exists(other => other.Name == label.Name))
            {
                values.Fault(item, ProductFaultCodes.ValueWrong, $"two labels are named \"{label.Name}\"; give each a name of its own");
                continue;
            }

            labels.Add(label);
        }

        return [.. labels];
    }

    private NamedLabel? One(YamlNode node)
    {
        (string? name, ProductFile read, bool isGiven) = (null, new ProductFile(), false);
        ImmutableArray<ProductCorrection> corrections = [];
        foreach ((YamlText key, YamlNode value) in values.Entries(node, "labels"))
        {
            switch (key.Text)
            {
                case "name":
                    name = values.Text(value, key.Text)?.Trim();
                    break;
                case "label" or "file" when isGiven:
                    values.Fault(value, ProductFaultCodes.ValueWrong, "\"label:\" and \"file:\" are both given; keep one of them");
                    break;
                case "label":
                    (read, isGiven) = (LabelMember.Read(read, value, values), true);
                    break;
                case "file":
                    (read, isGiven) = (LabelMember.ReadFile(read, values.Text(value, key.Text) ?? "", value, values), true);
                    break;
                case "label_corrections":
                    corrections =
                    [
                        .. values.Items(value, key.Text, MaxCorrections).Select(item => LabelCorrectionReader.Read(item, values)).OfType<ProductCorrection>(),
                    ];
                    break;
                default:
                    values.Unknown(key, "a label", Members);
                    break;
            }
        }

        if (!string.IsNullOrEmpty(name) && (read.LabelFile is not null || !string.IsNullOrWhiteSpace(read.Label)))
        {
            return new NamedLabel(name, read.Label, read.LabelFile) { Corrections = corrections, IsChecked = read.LabelIsChecked };
        }

        // A path that leaves the folder is a fault already.
        if (string.IsNullOrEmpty(name) || !isGiven)
        {
            values.Fault(
                node, ProductFaultCodes.ValueWrong,
                "a label needs its name, and its text or its file, as {name: front, label: \"USB-C: 65W\"} or {name: leaflet, file: leaflet.txt}");
        }

        return null;
    }
}
