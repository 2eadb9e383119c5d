using System.CommandLine;
using Portwitness.Service.Hosting;

namespace Portwitness.Cli.Commands;

/// <summary>What another program than this one serves beside gRPC.</summary>
/// <param name="Program">What that program is called.</param>
/// <param name="Options">Its own options of serve.</param>
/// <param name="Read">Reads them.</param>
internal sealed record ServeExtension(string Program, IReadOnlyList<Option> Options, Func<ParseResult, ServiceExtension> Read);
