using System.Globalization;

namespace Portwitness.Endurance;

/// <summary>
/// Product folders by the thousand: samples of the demo's chargers, each with content of its own, so that none is another one's duplicate.
/// </summary>
internal static class GeneratedProducts
{
    private const int SamplesOfEach = 100;

    private static readonly string[] Demos = ["clean-th65", "dishonest-th100", "broken-tp20"];

    /// <summary>Makes so many below a folder.</summary>
    public static void Write(string folder, int count)
    {
        Dictionary<string, string>[] demos = [.. Demos.Select(Read)];
        for (int number = 0; number < count; number++)
        {
            Dictionary<string, string> demo = demos[number % demos.Length];
            string place = Path.Combine(folder, NameOf(number));
            Directory.CreateDirectory(place);
            foreach ((string name, string text) in demo)
            {
                File.WriteAllText(Path.Combine(place, name), name == "product.yaml" ? Renamed(text, number) : text);
            }
        }
    }

    /// <summary>The name of a product's folder.</summary>
    public static string NameOf(int number) => string.Create(CultureInfo.InvariantCulture, $"p{number:D6}");

    private static string Renamed(string product, int number)
    {
        int line = product.IndexOf("product:", StringComparison.Ordinal);
        int end = product.IndexOf('\n', line);
        int model = number / Demos.Length / SamplesOfEach;
        return string.Create(
            CultureInfo.InvariantCulture, $"{product[..end]}, series {model}\nsample: \"{number}\"\nfirmware: \"1.{number / Demos.Length % 2}\"{product[end..]}");
    }

    private static Dictionary<string, string> Read(string demo) =>
        Directory.EnumerateFiles(Repository.PathOf("captures", demo)).Where(file => file.EndsWith(".jsonl", StringComparison.Ordinal) || Path.GetFileName(file) == "product.yaml")
            .ToDictionary(file => Path.GetFileName(file), File.ReadAllText);
}
