using System.Collections.Immutable;
using Portwitness.Product.Handling;
using Portwitness.Text.Yaml;

namespace Portwitness.Product;

/// <summary>Reads "opened:", "state:" and "travel:" of a product file.</summary>
internal sealed class HandlingReader(YamlValues values)
{
    internal static readonly string[] TravelMembers = ["as_of", "marks"];

    // In the order of the states.
    internal static readonly string[] States = ["sealed", "opened", "swollen", "to-be-disposed"];

    private const int MaxMarks = 50;

    /// <summary>The state.</summary>
    public ProductState State(YamlNode node)
    {
        int index = Array.IndexOf(States, values.Text(node, "state"));
        if (index < 0)
        {
            values.Fault(node, ProductFaultCodes.ValueWrong, $"\"state:\" is {string.Join(", ", States)}");
        }

        return (ProductState)(index + 1);
    }

    /// <summary>The product with the day of its travel card and the marks that were seen.</summary>
    public ProductFile Travel(ProductFile product, YamlNode node)
    {
        (DateOnly? asOf, ImmutableArray<string>? marks) = (null, null);
        foreach ((YamlText key, YamlNode value) in values.Entries(node, "travel"))
        {
            switch (key.Text)
            {
                case "as_of":
                    asOf = values.Date(value, key.Text);
                    break;
                case "marks":
                    marks = [.. values.Items(value, key.Text, MaxMarks).Select(mark => values.Text(mark, key.Text)).OfType<string>()];
                    break;
                default:
                    values.Unknown(key, "\"travel:\"", TravelMembers);
                    break;
            }
        }

        if (asOf is null)
        {
            values.Fault(
                node, ProductFaultCodes.ValueWrong,
                "a travel card needs its day, as {as_of: 2026-12-01, marks: [3C, separate-collection]}; without \"marks:\" nobody looked for them");
        }

        return product with { TravelAsOf = asOf, Marks = marks };
    }
}
