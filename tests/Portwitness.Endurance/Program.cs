using System.Globalization;
using Portwitness.Endurance;

// What takes long: run by hand, on a quiet machine, against the native program when PORTWITNESS_AOT names it.
//   dotnet run -c Release --project tests/Portwitness.Endurance -- batch [--products 10000] [--kills 5] [--seed 1]
//   ... nodes [--products 20000] [--kills 20] [--seed 1]     needs nats-server, and PORTWITNESS_POSTGRES
//   ... load [--seconds 60]          ... soak [--seconds 1800]          ... scaling [--products 3000]          ... hostile [--seconds 60]
string[] known = ["--products", "--kills", "--seed", "--seconds"];
Dictionary<string, int> options = [];
for (int at = 1; at + 1 < args.Length; at += 2)
{
    options[args[at]] = int.Parse(args[at + 1], CultureInfo.InvariantCulture);
}

if (args.Length % 2 == 0 || options.Keys.Except(known).Any())
{
    Console.Error.WriteLine($"Name what to do: batch, nodes, load, soak, scaling or hostile. Options: {string.Join(" N, ", known)} N.");
    return 2;
}

DirectoryInfo folder = Directory.CreateTempSubdirectory("portwitness-endurance-");
try
{
    IReadOnlyList<string> wrong = args[0] switch
    {
        "batch" => await new KilledBatch(folder.FullName, Option("--products", 10_000), Option("--kills", 5), Option("--seed", 1)).RunAsync(Console.WriteLine),
        "nodes" => await new KilledNodes(folder.FullName, Option("--products", 20_000), Option("--kills", 20), Option("--seed", 1)).RunAsync(Console.WriteLine),
        "load" => await new Load(folder.FullName, Option("--seconds", 60)).RunAsync(Console.WriteLine),
        "soak" => await new Load(folder.FullName, Option("--seconds", 1800)).SoakAsync(Console.WriteLine),
        "scaling" => await new Scaling(Option("--products", 3000)).RunAsync(Console.WriteLine),
        "hostile" => await new HostileClients(folder.FullName, Option("--seconds", 60)).RunAsync(Console.WriteLine),
        _ => [$"{args[0]} is not known"],
    };
    foreach (string one in wrong.Take(20))
    {
        Console.WriteLine(one);
    }

    Console.WriteLine(wrong.Count == 0 ? "as it should be" : $"{wrong.Count} things are not as they should be");
    return wrong.Count == 0 ? 0 : 1;
}
finally
{
    folder.Delete(recursive: true);
}

int Option(string name, int usual) => options.GetValueOrDefault(name, usual);
