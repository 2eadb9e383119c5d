using Portwitness.Text.Yaml;

namespace Portwitness.Product;

/// <summary>
/// Reads "label:" of a product file: the printed text, or "@FILE" or {file: FILE} for a file beside it that has the text, or {photo: FILE, checked: true}.
/// </summary>
internal static class LabelMember
{
    private static readonly string[] TextExtensions =
        [".txt", ".text", ".md", ".label", ".csv", ".yaml", ".yml", ".json", ".html", ".rtf", ".docx", ".pdf", ".png", ".jpg", ".jpeg", ".ocr"];

    /// <summary>The members of a label that is named and not written out.</summary>
    internal static readonly string[] Members = ["file", "photo", "checked"];

    /// <summary>The product with its label, or its label's file.</summary>
    public static ProductFile Read(ProductFile product, YamlNode node, YamlValues values)
    {
        if (node is YamlMap)
        {
            foreach ((YamlText key, YamlNode value) in values.Entries(node, "label"))
            {
                switch (key.Text)
                {
                    case "file" or "photo" when values.Text(value, key.Text) is { } named:
                        product = ReadFile(product, named, value, values);
                        break;
                    case "checked" when values.Text(value, key.Text) is "true" or "false":
                        product = product with { LabelIsChecked = value is YamlText { Text: "true" } };
                        break;
                    case "checked":
                        values.Fault(value, ProductFaultCodes.ValueWrong, "\"checked: true\" says that a person has compared the label's text with the photo; true or false was expected");
                        break;
                    case "file" or "photo":
                        break;
                    default:
                        values.Unknown(key, "a label", Members);
                        break;
                }
            }

            return product;
        }

        if (values.Text(node, "label") is not { } text)
        {
            return product;
        }

        string line = text.Trim();
        if (line is ['@', .. var file])
        {
            return ReadFile(product, file, node, values);
        }

        if (IsFileName(line))
        {
            values.Fault(
                node, ProductFaultCodes.LabelIsPath,
                $"\"{line}\" is the name of a file, not what is printed; write label: \"@{line}\" to read the label from that file");
        }

        return product with { Label = text };
    }

    /// <summary>The product with a label's file.</summary>
    public static ProductFile ReadFile(ProductFile product, string file, YamlNode node, YamlValues values)
    {
        if (RelativePath.StaysInside(file))
        {
            return product with { LabelFile = file };
        }

        values.Fault(
            node, ProductFaultCodes.PathLeavesFolder,
            $"\"{file}\" leaves the product's folder; put the label's file beside the product file and name it relative to it");
        return product;
    }

    // One word that ends like a file of text or a picture: nothing that is printed does.
    private static bool IsFileName(string text) => !text.Any(char.IsWhiteSpace)
        && Array.Exists(TextExtensions, extension => text.Length > extension.Length && text.EndsWith(extension, StringComparison.OrdinalIgnoreCase));
}
