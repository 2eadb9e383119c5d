using Microsoft.AspNetCore.Builder;
using Portwitness.Service.Access;

namespace Portwitness.Service.Hosting;

/// <summary>What a program serves beside gRPC, behind the same checks of access.</summary>
/// <param name="Addresses">Where it speaks HTTP/1.1 alone. Encrypted addresses of the service speak both.</param>
/// <param name="Configure">Adds services.</param>
/// <param name="Map">Adds addresses; the checks of access stand before them already.</param>
public sealed record ServiceExtension(IReadOnlyList<ListenAddress> Addresses, Action<WebApplicationBuilder> Configure, Action<WebApplication> Map);
